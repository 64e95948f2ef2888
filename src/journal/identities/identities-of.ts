import type { SiteId } from '#road/entry.ts'
import type { SubjectId } from '#road/subject.ts'
import type { Engine } from '../engine.ts'
import type { IdentityAccessRow, IdentityRow, Tx } from '../tables.ts'
import type { Identities, IdentityAccess, KeptIdentity, SealedIdentity } from './identities.ts'

/** The identities of a site over one engine. */
export function identitiesOf(engine: Engine, site: SiteId): Identities {
  const { reading } = engine
  const note = async (tx: Tx, { case: caseId, ...rest }: IdentityAccess): Promise<void> => {
    await tx
      .insertInto('identity_access')
      .values({ site, ...rest, case_id: caseId })
      .execute()
  }
  const rowOf = (tx: Tx, caseId: SubjectId<'case'>): Promise<IdentityRow | undefined> =>
    tx.selectFrom('identity').selectAll().where('site', '=', site).where('case_id', '=', caseId).executeTakeFirst()
  return {
    keep: (access, make) =>
      engine.transact(async (tx) => {
        // Two services that keep their first identity at once would otherwise both make a key.
        await engine.lockHead(tx, site)
        await note(tx, access)
        const before = await rowOf(tx, access.case)
        const row: IdentityRow = {
          site,
          case_id: access.case,
          sealed: make({ before: before && identityOf(before), last: await lastKept(tx, site) }),
          kept_by: access.person,
          kept_at: access.at,
        }
        await tx
          .insertInto('identity')
          .values(row)
          .onConflict((conflict) => conflict.columns(['site', 'case_id']).doUpdateSet(row))
          .execute()
      }),
    async state(caseId) {
      const row = await reading
        .selectFrom('identity')
        .select(({ eb }) => ['kept_at', eb('sealed', 'is', null).as('erased')])
        .where('site', '=', site)
        .where('case_id', '=', caseId)
        .executeTakeFirst()
      // SQLite answers a yes as 1.
      return row && { keptAt: row.kept_at, is: row.erased ? 'erased' : 'kept' }
    },
    see: (caseId, access) =>
      engine.transact(async (tx) => {
        await note(tx, access)
        const row = await rowOf(tx, caseId)
        return row && identityOf(row)
      }),
    seeAll: (access) =>
      engine.transact(async (tx) => {
        await note(tx, access)
        const rows = await tx
          .selectFrom('identity')
          .selectAll()
          .where('site', '=', site)
          .where('sealed', 'is not', null)
          .orderBy('case_id')
          .execute()
        return rows.map(identityOf)
      }),
    erase: (caseId, access) =>
      engine.transact(async (tx) => {
        const row = await tx
          .updateTable('identity')
          .set({ sealed: null, kept_by: access.person, kept_at: access.at })
          .where('site', '=', site)
          .where('case_id', '=', caseId)
          .where('sealed', 'is not', null)
          .returning('case_id')
          .executeTakeFirst()
        if (row !== undefined) await note(tx, access)
        return row !== undefined
      }),
    async accesses({ case: caseId, before, limit }) {
      const rows = await reading
        .selectFrom('identity_access')
        .selectAll()
        .where('site', '=', site)
        .$if(caseId !== undefined, (query) => query.where('case_id', '=', caseId ?? null))
        // Ids are UUIDs of version 7: their order is that of time.
        .$if(before !== undefined, (query) => query.where('id', '<', before ?? ''))
        .orderBy('id', 'desc')
        .limit(limit)
        .execute()
      return rows.map(accessOf)
    },
  }
}

async function lastKept(tx: Tx, site: SiteId): Promise<KeptIdentity | undefined> {
  const row = await tx
    .selectFrom('identity')
    .selectAll()
    .where('site', '=', site)
    .where('sealed', 'is not', null)
    .orderBy('kept_at', 'desc')
    .orderBy('case_id')
    .limit(1)
    .executeTakeFirst()
  return row === undefined || row.sealed === null ? undefined : { ...identityOf(row), sealed: row.sealed }
}

function identityOf({ case_id, sealed, kept_by, kept_at }: IdentityRow): SealedIdentity {
  return { case: case_id, sealed, keptBy: kept_by, keptAt: kept_at }
}

function accessOf({ id, at, person, act, case_id, why }: IdentityAccessRow): IdentityAccess {
  return { id, at, person, act, case: case_id, why }
}
