import { setImmediate } from 'node:timers/promises'
import type { SiteId } from '#road/entry.ts'
import type { Road } from '#road/road.ts'
import type { SubjectId } from '#road/subject.ts'
import { type KnownRecord, foldAll } from '../folding.ts'
import { knownRowOf } from '../known-row.ts'
import { type MilestoneRow, isMilestone, milestoneOf, selectMilestones } from '../milestones.ts'
import { selectEntriesAbout } from '../select-entries.ts'
import type { Db, KnownTableRow } from '../tables.ts'
import type { Fault } from './fault.ts'

const subjectsAtOnce = 200

/** Folds every subject from all its entries and holds the result against what is stored. */
export async function verifyKnown(db: Db, site: SiteId, road: Road): Promise<{ fault?: Fault; count: number }> {
  let after = ''
  let count = 0
  while (true) {
    const subjects = await selectSubjects(db, site, after)
    const last = subjects.at(-1)
    if (last === undefined) return { count }
    const stored = await selectStored(db, site, subjects)
    const milestones = Map.groupBy(await selectMilestones(db, site, subjects), (row) => row.subject)
    for (const subject of subjects) {
      const passed = new Map<number, MilestoneRow>()
      const each = (record: KnownRecord): void => {
        if (isMilestone(record)) passed.set(record.entries, milestoneOf(site, subject, record))
      }
      const record = foldAll(road, subject, { entries: await selectEntriesAbout(db, site, { subject }), each })
      const says =
        difference(record && knownRowOf(site, subject, record), stored.get(subject)) ??
        differenceOfMilestones(passed, milestones.get(subject) ?? [])
      if (says !== undefined) return { count, fault: { part: 'known', site, subject, says } }
      if (record !== undefined) count += 1
    }
    after = last
    await setImmediate()
  }
}

/** Subjects that any entry is about or that are said to be known: the one must follow from the other. */
async function selectSubjects(db: Db, site: SiteId, after: string): Promise<SubjectId[]> {
  const subjects = new Set<SubjectId>()
  for (const table of ['about', 'known'] as const) {
    const rows = await db
      .selectFrom(table)
      .select('subject')
      .distinct()
      .where('site', '=', site)
      .where('subject', '>', after as SubjectId)
      .orderBy('subject')
      .limit(subjectsAtOnce)
      .execute()
    for (const row of rows) subjects.add(row.subject)
  }
  return [...subjects].sort().slice(0, subjectsAtOnce)
}

async function selectStored(
  db: Db,
  site: SiteId,
  subjects: readonly SubjectId[],
): Promise<ReadonlyMap<SubjectId, KnownTableRow>> {
  const rows = await db
    .selectFrom('known')
    .selectAll()
    .where('site', '=', site)
    .where('subject', 'in', subjects)
    .execute()
  return new Map(rows.map((row) => [row.subject, row]))
}

function differenceOfMilestones(
  passed: ReadonlyMap<number, MilestoneRow>,
  stored: readonly MilestoneRow[],
): string | undefined {
  for (const row of stored) {
    const expected = passed.get(row.entries)
    if (expected === undefined) return `a milestone is stored for ${row.entries} entries, where none belongs`
    const says = difference(expected, row)
    if (says !== undefined) return `at its milestone of ${row.entries} entries ${says}`
  }
  return undefined
}

function difference(expected: MilestoneRow | undefined, stored: MilestoneRow | undefined): string | undefined {
  if (expected === undefined && stored === undefined) return undefined
  if (expected === undefined) return 'something is stored as known, but no entry says anything of it'
  if (stored === undefined) return 'nothing is stored as known, but its entries say something'
  for (const [column, value] of Object.entries(expected)) {
    const current: unknown = Reflect.get(stored, column)
    if (current !== value) return `its entries give ${column} ${short(value)}, but stored is ${short(current)}`
  }
  return undefined
}

function short(value: unknown): string {
  const text = String(value)
  return text.length > 200 ? `${text.slice(0, 197)}…` : text
}
