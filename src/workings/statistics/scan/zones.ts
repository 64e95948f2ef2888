import { z } from 'zod'

/** A set of rows that is looked at as one place. */
export interface Zone {
  readonly name: string
  readonly rows: readonly number[]
}

/** Which sets of rows are looked at. */
export const zonesField = z
  .string()
  .max(200)
  .refine((text) => /alone|each|single|all/i.test(text), {
    message: 'words that name the zones, such as "each theatre alone, or all three", "each theatre alone" or "all"',
  })
  .default('each alone, or all')
  .describe('which places are looked at: each alone, all together, or both')

/** "theatre A,B,C" names three rows A, B and C; without names, or with too few, rows are numbered. */
function rowNames(text: string | undefined, count: number): readonly string[] {
  const names = (text ?? '').split(',').map((name) => name.trim())
  const first = names[0]?.split(/\s+/).at(-1) ?? ''
  const clean = [first, ...names.slice(1)]
  return clean.length === count && clean.every((name) => name !== '')
    ? clean
    : Array.from({ length: count }, (_, index) => String(index + 1))
}

export function zonesOf(words: string, rows: string | undefined, count: number): readonly Zone[] {
  const everything: Zone = { name: 'all', rows: Array.from({ length: count }, (_, index) => index) }
  const each = rowNames(rows, count).map((name, index) => ({ name, rows: [index] }))
  const together = /\ball\b/i.test(words)
  const alone = /alone|each|single/i.test(words)
  if (!alone) return [everything]
  // With one row "all" is the same zone again.
  return together && count > 1 ? [...each, everything] : each
}
