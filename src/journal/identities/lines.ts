import { z } from 'zod'
import { SiteId } from '#road/entry.ts'
import { Instant } from '#road/instant.ts'
import { subjectOf } from '#road/subject.ts'
import { readFormat } from '../migrations/format.ts'
import type { Db, IdentityAccessRow, IdentityRow, Tx } from '../tables.ts'
import { identityActs } from './identities.ts'

/** The format in which the tables of identities came. A backup of an older one has none. */
export const formatWithIdentities = 5

export const IdentityLine = z.strictObject({
  identity: z.strictObject({
    site: SiteId,
    case_id: subjectOf('case'),
    sealed: z.base64().nullable(),
    kept_by: subjectOf('person').nullable(),
    kept_at: Instant,
  }),
})

export const IdentityAccessLine = z.strictObject({
  identityAccess: z.strictObject({
    site: SiteId,
    id: z.uuid(),
    at: Instant,
    person: subjectOf('person').nullable(),
    act: z.enum(identityActs),
    case_id: subjectOf('case').nullable(),
    why: z.string().max(200),
  }),
})

/** Who the patients are, still encrypted, and who looked. */
export async function* identityLines(db: Db): AsyncIterable<string> {
  if (((await readFormat(db)) ?? 0) < formatWithIdentities) return
  for (const { sealed, ...row } of await db
    .selectFrom('identity')
    .selectAll()
    .orderBy('site')
    .orderBy('case_id')
    .execute()) {
    const identity = { ...row, sealed: sealed === null ? null : Buffer.from(sealed).toString('base64') }
    yield JSON.stringify({ identity })
  }
  for (const identityAccess of await db
    .selectFrom('identity_access')
    .selectAll()
    .orderBy('site')
    .orderBy('id')
    .execute())
    yield JSON.stringify({ identityAccess })
}

/** Carries the identities of a site and their log from one store into another. */
export async function carryIdentities(from: Tx, into: Tx, site: SiteId): Promise<void> {
  const identities = await from.selectFrom('identity').selectAll().where('site', '=', site).execute()
  for (const row of identities) await putIdentity(into, row)
  const accesses = await from.selectFrom('identity_access').selectAll().where('site', '=', site).execute()
  for (const row of accesses) await takeIdentityAccess(into, row)
}

/** Takes over an identity of a backup, unless this store has a newer word on that case. */
export async function takeIdentity(
  tx: Tx,
  { sealed, ...rest }: z.infer<typeof IdentityLine>['identity'],
): Promise<void> {
  await putIdentity(tx, { ...rest, sealed: sealed === null ? null : Buffer.from(sealed, 'base64') })
}

async function putIdentity(tx: Tx, row: IdentityRow): Promise<void> {
  await tx
    .insertInto('identity')
    .values(row)
    .onConflict((conflict) =>
      conflict.columns(['site', 'case_id']).doUpdateSet(row).where('identity.kept_at', '<', row.kept_at),
    )
    .execute()
}

export async function takeIdentityAccess(tx: Tx, row: IdentityAccessRow): Promise<void> {
  await tx
    .insertInto('identity_access')
    .values(row)
    .onConflict((conflict) => conflict.columns(['site', 'id']).doNothing())
    .execute()
}
