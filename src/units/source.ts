import { z } from 'zod'

/**
 * How far a figure has been confirmed.
 * - `confirmed`: read in the published text or an identical reprint.
 * - `secondary`: read only in a text that quotes it.
 * - `computed`: worked out here from confirmed figures.
 * - `proposal`: a choice made here where sources conflict or are silent.
 * - `commonPractice`: a fact of the trade, no published source.
 * - `unverified`: from memory; check the local standard before relying on it.
 */
export const SourceStatus = z.enum(['confirmed', 'secondary', 'computed', 'proposal', 'commonPractice', 'unverified'])
export type SourceStatus = z.infer<typeof SourceStatus>

/** Where a number, a formula or a rule comes from. No figure is shown without one. */
export const Source = z.object({
  title: z.string(),
  edition: z.string().optional(),
  clause: z.string().optional(),
  status: SourceStatus,
})
export type Source = z.infer<typeof Source>

/** What a screen, a printed page or a finding adds to a figure that nobody has confirmed. */
export const unverifiedNotice = 'unverified, check your local standard'

/** One line for people: title, edition, clause, and the warning an unconfirmed source carries. */
export function citeSource(source: Source): string {
  const place = [source.title, source.edition, source.clause].filter((part) => part !== undefined).join(', ')
  switch (source.status) {
    case 'unverified':
      return `${place} (${unverifiedNotice})`
    case 'commonPractice':
      return `${place} (common practice, no published source)`
    case 'proposal':
      return `${place} (a proposal; your unit decides)`
    case 'confirmed':
    case 'secondary':
    case 'computed':
      return place
  }
}
