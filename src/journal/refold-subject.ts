import type { KeptEntry, SiteId } from '#road/entry.ts'
import type { Road } from '#road/road.ts'
import type { SubjectId } from '#road/subject.ts'
import { type KnownRecord, foldAll, foldOn } from './folding.ts'
import {
  type FoldPoint,
  type MilestoneRow,
  deleteMilestones,
  insertMilestones,
  isMilestone,
  lastMilestone,
  milestoneOf,
} from './milestones.ts'
import { anyCorrected, selectEntriesAbout } from './select-entries.ts'
import type { Db } from './tables.ts'

/**
 * Folds a subject anew from its entries in the database, and makes its milestones again. With `from`, the place of a
 * late entry, only from the milestone before it; without, which a correction needs, from the beginning.
 */
export async function refoldSubject(
  place: { readonly db: Db; readonly site: SiteId; readonly road: Road },
  subject: SubjectId,
  from: FoldPoint | undefined,
): Promise<KnownRecord | undefined> {
  const { db, site, road } = place
  const milestones: MilestoneRow[] = []
  const each = (record: KnownRecord): void => {
    if (isMilestone(record)) milestones.push(milestoneOf(site, subject, record))
  }
  const beginning = from === undefined ? undefined : await beginAt(db, site, { subject, from })
  if (beginning === undefined) await deleteMilestones(db, site, { subject })
  const record =
    beginning === undefined
      ? foldAll(road, subject, { entries: await selectEntriesAbout(db, site, { subject }), each })
      : foldOn(road, subject, { ...beginning, each })
  await insertMilestones(db, milestones)
  return record
}

/** The last milestone before a point with the entries after it, when it can be gone on from there. */
async function beginAt(
  db: Db,
  site: SiteId,
  { subject, from }: { subject: SubjectId; from: FoldPoint },
): Promise<{ before: KnownRecord; entries: readonly KeptEntry[] } | undefined> {
  await deleteMilestones(db, site, { subject, from })
  const before = await lastMilestone(db, site, subject)
  if (before === undefined) return undefined
  const after = { happenedAt: before.foldedAt, id: before.foldedId }
  const entries = await selectEntriesAbout(db, site, { subject, after })
  // Which of a corrected entry and its corrections stands is only seen with all of them, and some may lie before.
  if (entries.some((entry) => entry.corrects !== undefined)) return undefined
  const ids = entries.map((entry) => entry.id)
  return (await anyCorrected(db, site, ids)) ? undefined : { before, entries }
}
