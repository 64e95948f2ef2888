import { createHash, createHmac, randomBytes } from 'node:crypto'
import { invariant } from '#units/invariant.ts'
import type { SiteId } from '#road/entry.ts'
import type { SubjectId } from '#road/subject.ts'
import type { Journal } from '#journal/journal.ts'

/*
 * What stands on record for an operation and a patient of another system. A number of a hospital has few digits, so that a
 * plain hash of it could be turned back by trying all of them: a key of the store makes that impossible without the key.
 */

/** The case that an operation of the other system is here: the same one each time. */
export function caseOfRef(site: SiteId, ref: string): SubjectId<'case'> {
  return `case:l-${createHash('sha256').update(`${site}\n${ref}`).digest('hex').slice(0, 12)}`
}

/** The number that stands for a patient of the other system. Its key is made with the first list. */
export async function pseudonymsOf(
  { notes }: Pick<Journal, 'notes'>,
  site: SiteId,
): Promise<(number: string) => string> {
  const name = `list-pseudonyms ${site}`
  if ((await notes.read(name)) === undefined) await notes.write(name, randomBytes(32).toString('hex'))
  // Read again: another process may have written its own after ours, and then that one counts.
  const key = await notes.read(name)
  invariant(key !== undefined, 'a key that was written is there')
  return (number) => `P-${createHmac('sha256', key).update(number).digest('hex').slice(0, 12).toUpperCase()}`
}
