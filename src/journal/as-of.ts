import type { SiteId } from '#road/entry.ts'
import type { Road } from '#road/road.ts'
import type { KnownOf } from '#road/known.ts'
import type { SubjectId, SubjectKind } from '#road/subject.ts'
import { chunks, rowsPerStatement } from './chunks.ts'
import { foldAll, type KnownRecord } from './folding.ts'
import { knownRecordOf } from './known-row.ts'
import type { Reader } from './journal.ts'
import { selectEntriesAbout } from './select-entries.ts'
import { selectKnown } from './select-known.ts'
import type { Db } from './tables.ts'

interface Moment {
  readonly site: SiteId
  readonly road: Road
  readonly seq: number
}

/**
 * The record as it stood when an entry had just been kept: nothing that was kept later is seen. Only what has an entry
 * since then is folded anew; of all else what is known now was known then.
 */
export function asOf(db: Db, moment: Moment): ReturnType<Reader['asOf']> {
  const foldThen = async (subject: SubjectId): Promise<KnownRecord | undefined> => {
    const entries = await selectEntriesAbout(db, moment.site, { subject, upToSeq: moment.seq })
    return foldAll(moment.road, subject, { entries })
  }
  return {
    async known<K extends SubjectKind>(ids: readonly SubjectId<K>[]) {
      const changed = new Set<string>(await changedOf(db, moment, ids))
      const [same, then] = await Promise.all([
        selectKnown(
          db,
          moment.site,
          ids.filter((id) => !changed.has(id)),
        ),
        Promise.all(ids.filter((id) => changed.has(id)).map(async (id) => [id, await foldThen(id)] as const)),
      ])
      for (const [id, record] of then) if (record !== undefined) same.set(id, record.state as KnownOf<K>)
      return same
    },
    async standing<K extends SubjectKind>(kind: K, standings: readonly string[]) {
      if (standings.length === 0) return []
      const changed = await changedOfKind(db, moment, kind)
      const then = await Promise.all(changed.map(async (subject) => ({ subject, record: await foldThen(subject) })))
      const rows = await db
        .selectFrom('known')
        .selectAll()
        .where('site', '=', moment.site)
        .where('kind', '=', kind)
        .where('standing', 'in', standings)
        .execute()
      const since = new Set<string>(changed)
      const same = rows.filter((row) => !since.has(row.subject))
      return [
        ...same.map((row) => ({ subject: row.subject, record: knownRecordOf(row) })),
        ...then.flatMap(({ subject, record }) => (record === undefined ? [] : [{ subject, record }])),
      ]
        .filter(({ record }) => standings.includes(record.standing))
        .sort((a, b) => compare(a.record.since, b.record.since) || compare(a.subject, b.subject))
        .map(({ record }) => record.state as KnownOf<K>)
    },
  }
}

/** Those of these subjects that an entry kept later is about. */
async function changedOf(db: Db, { site, seq }: Moment, ids: readonly SubjectId[]): Promise<SubjectId[]> {
  const found: SubjectId[] = []
  for (const piece of chunks([...new Set(ids)], rowsPerStatement)) {
    const rows = await db
      .selectFrom('about')
      .select('subject')
      .distinct()
      .where('site', '=', site)
      .where('subject', 'in', piece)
      .where('seq', '>', seq)
      .execute()
    found.push(...rows.map(({ subject }) => subject))
  }
  return found
}

/** All subjects of a kind that an entry kept later is about, whether or not anything is still known of them. */
async function changedOfKind(db: Db, { site, seq }: Moment, kind: SubjectKind): Promise<SubjectId[]> {
  const rows = await db
    .selectFrom('about')
    .select('subject')
    .distinct()
    .where('site', '=', site)
    // A subject is its kind, a colon and its key, and a semicolon is the sign after the colon on both engines.
    .where('subject', '>', `${kind}:` as SubjectId)
    .where('subject', '<', `${kind};` as SubjectId)
    .where('seq', '>', seq)
    .execute()
  return rows.map(({ subject }) => subject)
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0
}
