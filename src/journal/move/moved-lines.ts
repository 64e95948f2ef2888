import { z } from 'zod'
import { SiteId } from '#road/entry.ts'
import { Instant } from '#road/instant.ts'
import { readFormat } from '../migrations/format.ts'
import type { Db, MovedRow, Tx } from '../tables.ts'

/** The format in which the table came. A backup of an older one has none. */
const formatWithMoved = 4

export const MovedLine = z.strictObject({
  moved: z.strictObject({ site: SiteId, at: Instant, goes_on: z.string() }),
})

/** Which sites are closed here, so that a restored store does not open them again. */
export async function* movedLines(db: Db): AsyncIterable<string> {
  for (const moved of await selectMoved(db)) yield JSON.stringify({ moved })
}

export async function selectMoved(db: Db): Promise<readonly MovedRow[]> {
  if (((await readFormat(db)) ?? 0) < formatWithMoved) return []
  return await db.selectFrom('moved').selectAll().orderBy('site').execute()
}

/** Closes a site. After its entries, since from here on the database takes none. */
export async function putMoved(tx: Tx, row: MovedRow): Promise<void> {
  await tx
    .insertInto('moved')
    .values(row)
    .onConflict((conflict) => conflict.column('site').doUpdateSet(row))
    .execute()
}
