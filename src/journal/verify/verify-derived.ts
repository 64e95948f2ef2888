import { setImmediate } from 'node:timers/promises'
import type { AttachmentDigest } from '#road/attachment.ts'
import type { EntryId, KeptEntry, SiteId } from '#road/entry.ts'
import type { Road } from '#road/road.ts'
import type { SubjectId } from '#road/subject.ts'
import { canonicalJson } from '../canonical-json.ts'
import { entryOfText } from '../chain.ts'
import { familyOf, selectFamily } from '../family.ts'
import { whatIsSaid } from '../said.ts'
import { selectChain } from '../select-entries.ts'
import type { Db } from '../tables.ts'
import type { Fault } from './fault.ts'

/*
 * What an entry is about and what it links follows from the entry alone, or from its family when it was corrected.
 * Both are worked out again, page by page, and held against what is stored.
 */

const entriesAtOnce = 500

export interface DerivedCounts {
  readonly links: number
  /** Entries of a kind or with a body that this version cannot read. */
  readonly unreadable: number
}

type Rows = ReadonlyMap<string, SubjectId>

export async function verifyDerived(
  db: Db,
  site: SiteId,
  road: Road,
): Promise<{ fault?: Fault; counts: DerivedCounts }> {
  const corrected = await selectCorrected(db, site)
  let counts = { links: 0, unreadable: 0 }
  let afterSeq = 0
  while (true) {
    const page = (await selectChain(db, site, { afterSeq, limit: entriesAtOnce })).map(entryOfText)
    const last = page.at(-1)
    if (last === undefined) return { counts, ...(await faultOfExtraRows(db, site)) }
    const about = new Map<string, SubjectId>()
    const links = new Map<string, SubjectId>()
    const files = new Map<AttachmentDigest, KeptEntry>()
    for (const entry of page) {
      const said = whatIsSaid(road, entry)
      const inFamily = entry.corrects !== undefined || corrected.has(entry.id)
      const expected = inFamily ? await expectedInFamily(db, road, entry) : expectedAlone(road, entry)
      for (const file of said?.files ?? []) files.set(file, entry)
      if (said === undefined) counts = { ...counts, unreadable: counts.unreadable + 1 }
      for (const [row, subject] of expected.about) about.set(row, subject)
      for (const [row, subject] of expected.links) links.set(row, subject)
    }
    const ids = page.map((entry) => entry.id)
    const fault =
      faultOfRows('about', site, { expected: about, stored: await selectAbout(db, ids) }) ??
      faultOfRows('links', site, { expected: links, stored: await selectLinkRows(db, ids) }) ??
      (await faultOfFiles(db, files))
    if (fault !== undefined) return { counts, fault }
    counts = { ...counts, links: counts.links + links.size }
    await setImmediate()
    afterSeq = last.seq
  }
}

interface Expected {
  readonly about: Rows
  readonly links: Rows
}

function expectedAlone(road: Road, entry: KeptEntry): Expected {
  const said = whatIsSaid(road, entry)
  return { about: aboutRows(entry, said?.subjects ?? []), links: linkRows(entry, said?.links ?? []) }
}

async function expectedInFamily(db: Db, road: Road, entry: KeptEntry): Promise<Expected> {
  const family = familyOf(road, await selectFamily(db, entry))
  const stands = family.standing?.entry.id === entry.id ? family.standing.links : []
  return { about: aboutRows(entry, family.subjects), links: linkRows(entry, stands) }
}

function aboutRows(entry: KeptEntry, subjects: readonly SubjectId[]): Rows {
  const { site, happenedAt, id, seq } = entry
  return new Map(subjects.map((subject) => [canonicalJson([site, subject, happenedAt, id, seq]), subject]))
}

function linkRows(entry: KeptEntry, links: readonly { from: SubjectId; relation: string; to: SubjectId }[]): Rows {
  const { site, happenedAt, id } = entry
  return new Map(
    links.map(({ from, relation, to }) => [canonicalJson([site, from, relation, to, happenedAt, id]), from]),
  )
}

async function selectAbout(db: Db, ids: readonly EntryId[]): Promise<Rows> {
  const rows = await db.selectFrom('about').selectAll().where('id', 'in', ids).execute()
  return new Map(
    rows.map((row) => [canonicalJson([row.site, row.subject, row.happened_at, row.id, row.seq]), row.subject]),
  )
}

async function selectLinkRows(db: Db, ids: readonly EntryId[]): Promise<Rows> {
  const rows = await db.selectFrom('link').selectAll().where('entry', 'in', ids).execute()
  return new Map(
    rows.map((row) => [
      canonicalJson([row.site, row.from_subject, row.relation, row.to_subject, row.at, row.entry]),
      row.from_subject,
    ]),
  )
}

function faultOfRows(
  part: 'about' | 'links',
  site: SiteId,
  { expected, stored }: { readonly expected: Rows; readonly stored: Rows },
): Fault | undefined {
  for (const [row, subject] of expected) {
    if (!stored.has(row)) return { part, site, subject, says: `${row} is missing` }
  }
  for (const [row, subject] of stored) {
    if (!expected.has(row)) return { part, site, subject, says: `${row} follows from no entry` }
  }
  return undefined
}

/** What was read from a file is proven by its bytes: they are to be there. */
async function faultOfFiles(db: Db, files: ReadonlyMap<AttachmentDigest, KeptEntry>): Promise<Fault | undefined> {
  if (files.size === 0) return undefined
  const rows = await db
    .selectFrom('attachment')
    .select('digest')
    .where('digest', 'in', [...files.keys()])
    .execute()
  const kept = new Set<string>(rows.map((row) => row.digest))
  for (const [digest, { seq, site }] of files) {
    if (!kept.has(digest)) {
      return { part: 'attachment', digest, says: `entry ${seq} of site ${site} names it, but it is not kept` }
    }
  }
  return undefined
}

/** Rows that name no entry of this site, which the pages of entries above do not come to. */
async function faultOfExtraRows(db: Db, site: SiteId): Promise<{ fault?: Fault }> {
  const about = await db
    .selectFrom('about')
    .select('subject')
    .where('site', '=', site)
    .where('id', 'not in', db.selectFrom('entry').select('id').where('site', '=', site))
    .limit(1)
    .executeTakeFirst()
  if (about !== undefined) {
    return { fault: { part: 'about', site, subject: about.subject, says: 'a row names an entry that is not kept' } }
  }
  const link = await db
    .selectFrom('link')
    .select('from_subject')
    .where('site', '=', site)
    .where('entry', 'not in', db.selectFrom('entry').select('id').where('site', '=', site))
    .limit(1)
    .executeTakeFirst()
  if (link !== undefined) {
    return { fault: { part: 'links', site, subject: link.from_subject, says: 'a row names an entry that is not kept' } }
  }
  return {}
}

async function selectCorrected(db: Db, site: SiteId): Promise<ReadonlySet<EntryId>> {
  const rows = await db
    .selectFrom('entry')
    .select('corrects')
    .where('site', '=', site)
    .where('corrects', 'is not', null)
    .execute()
  return new Set(rows.flatMap((row) => (row.corrects === null ? [] : [row.corrects])))
}
