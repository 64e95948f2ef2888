import type { KeptEntry } from '#road/entry.ts'
import { effectiveEntries } from '#road/fold.ts'
import type { Road } from '#road/road.ts'
import type { SubjectId } from '#road/subject.ts'
import { type Said, whatIsSaid } from './said.ts'
import { selectCorrectionsOf, selectEntry } from './select-entries.ts'
import type { Db } from './tables.ts'

/**
 * An entry, its corrections, and theirs. All of them are about every subject that any of them names: only so does
 * each of these subjects see the whole family, and which of them stands does not depend on the order of arrival.
 */
export interface Family {
  readonly members: readonly KeptEntry[]
  readonly subjects: readonly SubjectId[]
  /** What the member that stands says; undefined when the entry was withdrawn or cannot be read. */
  readonly standing: Said | undefined
}

export function familyOf(road: Road, members: readonly KeptEntry[]): Family {
  const subjects = new Set<SubjectId>()
  for (const member of members) for (const subject of whatIsSaid(road, member)?.subjects ?? []) subjects.add(subject)
  const [standing] = effectiveEntries(members)
  return { members, subjects: [...subjects], standing: standing && whatIsSaid(road, standing) }
}

/** Reads the whole family of an entry: up to the one that corrects nothing, then down again. */
export async function selectFamily(db: Db, member: KeptEntry): Promise<KeptEntry[]> {
  let root = member
  while (root.corrects !== undefined) {
    const above = await selectEntry(db, member.site, root.corrects)
    if (above === undefined) break
    root = above
  }
  const members = [root]
  let generation = [root]
  while (generation.length > 0) {
    generation = await selectCorrectionsOf(
      db,
      member.site,
      generation.map((entry) => entry.id),
    )
    members.push(...generation)
  }
  return members
}
