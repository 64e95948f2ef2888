import type { SiteId } from '#road/entry.ts'
import { hashBeforeFirst } from './chain.ts'
import type { ChainHead } from './engine.ts'
import type { Head } from './journal.ts'
import type { Db, Tx } from './tables.ts'

export const chainStart: ChainHead = Object.freeze({ seq: 0, hash: hashBeforeFirst })

export async function readHead(db: Db, site: SiteId): Promise<Head | undefined> {
  const row = await db
    .selectFrom('head')
    .select(['seq', 'hash', 'recorded_at'])
    .where('site', '=', site)
    .executeTakeFirst()
  return row && { seq: row.seq, hash: row.hash, recordedAt: row.recorded_at }
}

/** Where the chain of each site ends. */
export async function selectHeads(db: Db): Promise<{ site: SiteId; seq: number; hash: string }[]> {
  return await db.selectFrom('head').select(['site', 'seq', 'hash']).orderBy('site').execute()
}

export async function writeHead(tx: Tx, site: SiteId, head: Head): Promise<void> {
  const values = { seq: head.seq, hash: head.hash, recorded_at: head.recordedAt }
  await tx
    .insertInto('head')
    .values({ site, ...values })
    .onConflict((conflict) => conflict.column('site').doUpdateSet(values))
    .execute()
}
