import type { Db, Tx } from './tables.ts'

/** `format`: of the tables. `road`: the version of the road that derived what is derived. Notes are a program's own. */
type MetaName = 'format' | 'road' | `note:${string}`

export async function metaValue(db: Db, name: MetaName): Promise<string | undefined> {
  return (await db.selectFrom('meta').select('value').where('name', '=', name).executeTakeFirst())?.value
}

export async function setMeta(tx: Tx, name: MetaName, value: string): Promise<void> {
  await tx
    .insertInto('meta')
    .values({ name, value })
    .onConflict((conflict) => conflict.column('name').doUpdateSet({ value }))
    .execute()
}

export async function clearMeta(tx: Tx, name: MetaName): Promise<void> {
  await tx.deleteFrom('meta').where('name', '=', name).execute()
}
