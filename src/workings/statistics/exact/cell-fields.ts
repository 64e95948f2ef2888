import { z } from 'zod'

/** A count in a table. */
export const cellField = z.number().int().min(0).max(1_000_000)

/** The four cells of a two-by-two table, by name. */
export const tableFields = {
  casesExposed: cellField.describe('infected and exposed'),
  casesUnexposed: cellField.describe('infected, not exposed'),
  nonCasesExposed: cellField.describe('not infected, exposed'),
  nonCasesUnexposed: cellField.describe('not infected, not exposed'),
}

export const confidenceField = z
  .number()
  .min(0.5)
  .max(0.9999)
  .default(0.95)
  .describe('confidence of the interval, equal tails')

/** For whoever writes an input: read by people, not by the working. */
export const noteField = z.string().max(500).optional().describe('a note for readers; not used')
