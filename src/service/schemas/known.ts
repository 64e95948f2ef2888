import { z } from 'zod'
import { Instant } from '#road/instant.ts'
import { type SubjectId, subjectKinds, parseSubject } from '#road/subject.ts'

/** A subject of any kind, in an address. */
export const AnySubject = z.custom<SubjectId>(
  (value) => typeof value === 'string' && parseSubject(value) !== undefined,
  {
    error: `a subject: one of ${subjectKinds.join(', ')}, then ":" and its key`,
  },
)

/** What is known of a subject: the fold of its entries. Its members depend on the kind. */
const State = z.record(z.string(), z.json())

export const KnownRowAnswer = z.object({
  subject: AnySubject,
  kind: z.enum(subjectKinds),
  standing: z.string(),
  since: Instant,
  state: State,
  doubts: z.array(z.object({ rule: z.string(), says: z.string() })).optional(),
})

export const KnownRowsAnswer = z.array(KnownRowAnswer)

export const KnownPageAnswer = z.object({ rows: KnownRowsAnswer, next: z.string().nullable() })

/** A whole number in an address, where all is text. */
export function count(least: number, most: number) {
  const wanted = `a whole number from ${least} to ${most}`
  return z
    .string(wanted)
    .refine((text) => /^\d{1,15}$/.test(text) && Number(text) >= least && Number(text) <= most, wanted)
    .transform(Number)
    .meta({ type: 'integer', minimum: least, maximum: most })
}
