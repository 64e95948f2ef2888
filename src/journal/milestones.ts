import type { EntryId, SiteId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import type { SubjectId } from '#road/subject.ts'
import { chunks, rowsPerStatement } from './chunks.ts'
import type { KnownRecord } from './folding.ts'
import { knownRecordOf, knownRowOf } from './known-row.ts'
import type { Db, KnownTableRow } from './tables.ts'

/*
 * What was known of a subject after every so many entries. A machine gathers tens of thousands of entries in its life;
 * a late one is folded in from the milestone before it, not from the machine's first day.
 */

const entriesBetween = 128

/** A place in the order of folding. */
export interface FoldPoint {
  readonly happenedAt: Instant
  readonly id: EntryId
}

export function isMilestone(record: KnownRecord): boolean {
  return record.entries % entriesBetween === 0
}

export type MilestoneRow = Omit<KnownTableRow, 'kind'>

export function milestoneOf(site: SiteId, subject: SubjectId, record: KnownRecord): MilestoneRow {
  const { kind: _, ...row } = knownRowOf(site, subject, record)
  return row
}

export async function insertMilestones(db: Db, rows: readonly MilestoneRow[]): Promise<void> {
  for (const piece of chunks(rows, rowsPerStatement)) await db.insertInto('milestone').values(piece).execute()
}

/** Removes the milestones of a subject, those at or after a point or all. */
export async function deleteMilestones(db: Db, site: SiteId, of: { subject: SubjectId; from?: FoldPoint }) {
  const { subject, from } = of
  let remove = db.deleteFrom('milestone').where('site', '=', site).where('subject', '=', subject)
  if (from !== undefined) {
    remove = remove.where((row) =>
      row.or([
        row('folded_at', '>', from.happenedAt),
        row.and([row('folded_at', '=', from.happenedAt), row('folded_id', '>=', from.id)]),
      ]),
    )
  }
  await remove.execute()
}

export async function lastMilestone(db: Db, site: SiteId, subject: SubjectId): Promise<KnownRecord | undefined> {
  const row = await db
    .selectFrom('milestone')
    .selectAll()
    .where('site', '=', site)
    .where('subject', '=', subject)
    .orderBy('entries', 'desc')
    .limit(1)
    .executeTakeFirst()
  return row && knownRecordOf(row)
}

/** All milestones of these subjects, by subject and number of entries, for a comparison. */
export async function selectMilestones(db: Db, site: SiteId, subjects: readonly SubjectId[]): Promise<MilestoneRow[]> {
  return await db
    .selectFrom('milestone')
    .selectAll()
    .where('site', '=', site)
    .where('subject', 'in', subjects)
    .execute()
}
