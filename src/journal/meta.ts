import type { Db, Tx } from './tables.ts'

/** `format`: of the tables. `road`: the version of the road that derived what is derived. */
type MetaName = 'format' | 'road'

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
