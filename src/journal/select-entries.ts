import type { EntryId, KeptEntry, SiteId } from '#road/entry.ts'
import type { SubjectId } from '#road/subject.ts'
import { entryOfText } from './chain.ts'
import { chunks, rowsPerStatement } from './chunks.ts'
import { liesBySite } from './lies-by-site.ts'
import type { FoldPoint } from './milestones.ts'
import type { Db } from './tables.ts'

/** An entry of a site by its id. */
export async function selectEntry(db: Db, site: SiteId, id: EntryId): Promise<KeptEntry | undefined> {
  const row = await db
    .selectFrom('entry')
    .select(['text', 'hash'])
    .where('id', '=', id)
    .where('site', '=', site)
    .executeTakeFirst()
  return row && entryOfText(row)
}

/** The entry that has an id, at whatever site: an id is unique in the whole store. */
export async function selectHolder(db: Db, id: EntryId): Promise<KeptEntry | undefined> {
  // Of an entry that is sent for the first time, this spares a look into every partition.
  if (liesBySite(db)) {
    const taken = await db.selectFrom('entry_id').select('id').where('id', '=', id).executeTakeFirst()
    if (taken === undefined) return undefined
  }
  const row = await db.selectFrom('entry').select(['text', 'hash']).where('id', '=', id).executeTakeFirst()
  return row && entryOfText(row)
}

/** Whether an entry of a site corrects one of these. */
export async function anyCorrected(db: Db, site: SiteId, ids: readonly EntryId[]): Promise<boolean> {
  for (const piece of chunks(ids, rowsPerStatement)) {
    const row = await db
      .selectFrom('entry')
      .select('id')
      .where('corrects', 'in', piece)
      .$if(liesBySite(db), (query) => query.where('site', '=', site))
      .limit(1)
      .executeTakeFirst()
    if (row !== undefined) return true
  }
  return false
}

/** Entries of a site that correct one of these. */
export async function selectCorrectionsOf(db: Db, site: SiteId, ids: readonly EntryId[]): Promise<KeptEntry[]> {
  const rows = await db
    .selectFrom('entry')
    .select(['text', 'hash'])
    .where('corrects', 'in', ids)
    .$if(liesBySite(db), (query) => query.where('site', '=', site))
    .execute()
  return rows.map(entryOfText)
}

/** Entries about a subject in the order of folding. */
export async function selectEntriesAbout(
  db: Db,
  site: SiteId,
  { subject, upToSeq, after }: { subject: SubjectId; upToSeq?: number | undefined; after?: FoldPoint },
): Promise<KeptEntry[]> {
  let select = db
    .selectFrom('about')
    .innerJoin('entry', 'entry.id', 'about.id')
    .select(['entry.text', 'entry.hash'])
    .where('about.site', '=', site)
    .where('about.subject', '=', subject)
    .$if(liesBySite(db), (query) => query.where('entry.site', '=', site))
  if (upToSeq !== undefined) select = select.where('about.seq', '<=', upToSeq)
  if (after !== undefined) {
    select = select.where((row) =>
      row.or([
        row('about.happened_at', '>', after.happenedAt),
        row.and([row('about.happened_at', '=', after.happenedAt), row('about.id', '>', after.id)]),
      ]),
    )
  }
  const rows = await select.orderBy('about.happened_at').orderBy('about.id').execute()
  return rows.map(entryOfText)
}

export async function selectChain(
  db: Db,
  site: SiteId,
  { afterSeq, limit }: { readonly afterSeq: number; readonly limit: number },
): Promise<{ seq: number; text: string; hash: string }[]> {
  return await db
    .selectFrom('entry')
    .select(['seq', 'text', 'hash'])
    .where('site', '=', site)
    .where('seq', '>', afterSeq)
    .orderBy('seq')
    .limit(limit)
    .execute()
}
