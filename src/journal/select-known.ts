import type { SiteId } from '#road/entry.ts'
import type { KnownOf } from '#road/known.ts'
import type { SubjectId, SubjectKind } from '#road/subject.ts'
import { chunks, rowsPerStatement } from './chunks.ts'
import type { KnownQuery, KnownRow } from './journal.ts'
import { writtenJson } from './store-trouble.ts'
import type { Db } from './tables.ts'

/** What is known of these subjects; one that is not known is not in the answer. */
export async function selectKnown<K extends SubjectKind>(
  db: Db,
  site: SiteId,
  ids: readonly SubjectId<K>[],
): Promise<Map<SubjectId<K>, KnownOf<K>>> {
  const found = new Map<SubjectId<K>, KnownOf<K>>()
  for (const piece of chunks([...new Set(ids)], rowsPerStatement)) {
    const rows = await db
      .selectFrom('known')
      .select(['subject', 'state'])
      .where('site', '=', site)
      .where('subject', 'in', piece)
      .execute()
    for (const row of rows)
      found.set(row.subject as SubjectId<K>, writtenJson(row.state, 'what is known of a subject') as KnownOf<K>)
  }
  return found
}

/** All subjects of a kind in any of these standings, oldest standing first. */
export async function selectStanding<K extends SubjectKind>(
  db: Db,
  site: SiteId,
  { kind, standings }: { readonly kind: K; readonly standings: readonly string[] },
): Promise<KnownOf<K>[]> {
  if (standings.length === 0) return []
  const rows = await db
    .selectFrom('known')
    .select('state')
    .where('site', '=', site)
    .where('kind', '=', kind)
    .where('standing', 'in', standings)
    .orderBy('since')
    .orderBy('subject')
    .execute()
  return rows.map((row) => writtenJson(row.state, 'what is known of a subject') as KnownOf<K>)
}

/** One page of the subjects of a kind. */
export async function selectKnownOfKind<K extends SubjectKind>(
  db: Db,
  site: SiteId,
  { kind, standings, limit, after, order }: KnownQuery & { readonly kind: K },
): Promise<KnownRow<K>[]> {
  if (standings?.length === 0) return []
  const oldestFirst = order === 'oldestFirst'
  const [beyond, direction] = oldestFirst ? (['>', 'asc'] as const) : (['<', 'desc'] as const)
  let select = db
    .selectFrom('known')
    .select(['subject', 'standing', 'since', 'state'])
    .where('site', '=', site)
    .where('kind', '=', kind)
  if (standings !== undefined) select = select.where('standing', 'in', standings)
  if (after !== undefined) {
    select = select.where((row) =>
      row.or([
        row('since', beyond, after.since),
        row.and([row('since', '=', after.since), row('subject', beyond, after.subject)]),
      ]),
    )
  }
  const rows = await select.orderBy('since', direction).orderBy('subject', direction).limit(limit).execute()
  return rows.map((row) => ({
    subject: row.subject as SubjectId<K>,
    standing: row.standing,
    since: row.since,
    known: writtenJson(row.state, 'what is known of a subject') as KnownOf<K>,
  }))
}
