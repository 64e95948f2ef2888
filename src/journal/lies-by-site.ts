import { PostgresAdapter } from 'kysely'
import type { Db } from './tables.ts'

/** The adapter of a store whose entries may lie in partitions by their site: all transactions on the store share it. */
export class BySiteAdapter extends PostgresAdapter {
  liesBySite = false
}

/**
 * Whether the entries of a site lie in a partition that a query finds by the site. SQLite has none, and is not told the site
 * where it is to look up ids: without statistics it would rather read the whole site than look up more than a few.
 */
export function liesBySite(db: Db): boolean {
  const { adapter } = db.getExecutor()
  return adapter instanceof BySiteAdapter && adapter.liesBySite
}
