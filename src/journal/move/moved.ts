import type { SiteId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import type { Db, Tx } from '../tables.ts'

/** That the record of a site goes on in another store. */
export interface Moved {
  readonly at: Instant
  readonly goesOn: string
}

export async function readMoved(db: Db, site: SiteId): Promise<Moved | undefined> {
  const row = await db.selectFrom('moved').selectAll().where('site', '=', site).executeTakeFirst()
  return row && { at: row.at, goesOn: row.goes_on }
}

export async function writeMoved(tx: Tx, site: SiteId, { at, goesOn }: Moved): Promise<void> {
  await tx.insertInto('moved').values({ site, at, goes_on: goesOn }).execute()
}

/** The record is back. */
export async function clearMoved(tx: Tx, site: SiteId): Promise<void> {
  await tx.deleteFrom('moved').where('site', '=', site).execute()
}
