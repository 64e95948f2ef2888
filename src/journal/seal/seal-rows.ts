import type { SiteId } from '#road/entry.ts'
import { canonicalJson } from '../canonical-json.ts'
import { readFormat } from '../migrations/format.ts'
import type { Db, Tx } from '../tables.ts'
import { Seal } from './seal.ts'

/** The format in which the table of seals came. A backup of an older one has none. */
const formatWithSeals = 2

/** The seals kept in a store, the newest first. */
export async function selectSeals(
  db: Db,
  { site, limit = 1_000_000 }: { readonly site?: SiteId; readonly limit?: number },
): Promise<Seal[]> {
  if (((await readFormat(db)) ?? 0) < formatWithSeals) return []
  let select = db.selectFrom('seal').select('text')
  if (site !== undefined) select = select.where('site', '=', site)
  const rows = await select.orderBy('sealed_at', 'desc').orderBy('seq', 'desc').limit(limit).execute()
  // One that does not read was written by no version of ours; it proves nothing and cannot be checked.
  return rows.flatMap(({ text }) => readSealText(text) ?? [])
}

/** Keeps a seal. One that is kept already changes nothing. */
export async function insertSeal(tx: Tx, seal: Seal): Promise<void> {
  const row = { site: seal.site, sealed_at: seal.sealedAt, signature: seal.signature }
  const there = await tx
    .selectFrom('seal')
    .select('seq')
    .where('site', '=', row.site)
    .where('sealed_at', '=', row.sealed_at)
    .where('signature', '=', row.signature)
    .executeTakeFirst()
  if (there === undefined) {
    await tx
      .insertInto('seal')
      .values({ ...row, seq: seal.seq, text: canonicalJson(seal) })
      .execute()
  }
}

function readSealText(text: string): Seal | undefined {
  try {
    return Seal.safeParse(JSON.parse(text)).data
  } catch {
    return undefined
  }
}
