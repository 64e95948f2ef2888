import { z } from 'zod'
import { Finding } from './finding.ts'
import { Instant, instant } from './instant.ts'
import type { Signature } from './people/signature.ts'
import { subjectOf } from './subject.ts'

/*
 * An entry says that something happened or was decided. It is written once. What was entered
 * wrongly is corrected by a later entry that names it; both stay.
 */

/** Made where the entry was made; sending the same id twice keeps one entry. UUID version 7 (RFC 9562). */
export const EntryId = z
  .uuidv7()
  // In one spelling only: ids are keys and are compared as text.
  .regex(/^[0-9a-f-]+$/, 'a UUID of version 7 in small letters')
  .brand<'entry'>()
export type EntryId = z.infer<typeof EntryId>

/** When an entry was made, by the clock of the workstation that made it: the first 48 bits of its id (RFC 9562, 5.7). */
export function madeAt(id: EntryId): Instant {
  return instant(Number.parseInt(id.replace('-', '').slice(0, 12), 16))
}

export const SiteId = z
  .string()
  .regex(/^[a-z0-9][a-z0-9-]{0,39}$/, '1 to 40 small letters, digits or "-"')
  .brand<'site'>()
export type SiteId = z.infer<typeof SiteId>

/** Who lets a decision stand in spite of findings, which of them, and why. */
export const Exception = z.strictObject({
  allowedBy: subjectOf('person'),
  rules: z.array(z.string()).min(1),
  why: z.string().min(10),
})
export type Exception = z.infer<typeof Exception>

/** An entry as it is sent: everything but what the journal adds. */
export const SentEntry = z.strictObject({
  id: EntryId,
  site: SiteId,
  kind: z.string().regex(/^[a-z][a-z0-9-]{1,59}$/, 'the name of a kind of entry, such as soak-started'),
  happenedAt: Instant,
  by: subjectOf('person'),
  workstation: z.string().min(1).max(80),
  body: z.record(z.string(), z.json()),
  corrects: EntryId.optional(),
  exception: Exception.optional(),
})
export type SentEntry = z.infer<typeof SentEntry>

/** The findings that an entry met when it was kept, and the policy it was judged under. */
export const Judgement = z.strictObject({
  policy: z.string(),
  findings: z.array(Finding),
})
export type Judgement = z.infer<typeof Judgement>

/** An entry as the journal keeps it. `text` of the chain is the canonical JSON of all but `hash`. */
export interface KeptEntry extends SentEntry {
  readonly seq: number
  readonly recordedAt: Instant
  readonly judgement: Judgement
  /** Who signed it, and how each proved who they were. None on a record that is kept without sign-in. */
  readonly signed?: readonly Signature[]
  readonly previousHash: string
  readonly hash: string
}

/**
 * The order in which entries are folded: when it happened, then the id. It does not depend on
 * the order of arrival, so a late entry gives the same result as a punctual one.
 */
export function compareForFold(
  a: Pick<SentEntry, 'happenedAt' | 'id'>,
  b: Pick<SentEntry, 'happenedAt' | 'id'>,
): number {
  if (a.happenedAt !== b.happenedAt) return a.happenedAt < b.happenedAt ? -1 : 1
  if (a.id === b.id) return 0
  return a.id < b.id ? -1 : 1
}
