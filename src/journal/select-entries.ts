import type { EntryId, KeptEntry, SiteId } from '#road/entry.ts'
import type { SubjectId } from '#road/subject.ts'
import { entryOfText } from './chain.ts'
import { chunks, rowsPerStatement } from './chunks.ts'
import type { FoldPoint } from './milestones.ts'
import type { Db } from './tables.ts'

/** Entries by their ids, of any site: an id is unique in the whole store. */
export async function selectEntriesById(db: Db, ids: readonly EntryId[]): Promise<Map<EntryId, KeptEntry>> {
  const found = new Map<EntryId, KeptEntry>()
  for (const piece of chunks(ids, rowsPerStatement)) {
    const rows = await db.selectFrom('entry').select(['text', 'hash']).where('id', 'in', piece).execute()
    for (const entry of rows.map(entryOfText)) found.set(entry.id, entry)
  }
  return found
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
