import { sql } from 'kysely'
import type { SiteId } from '#road/entry.ts'
import type { Engine } from '../engine.ts'
import type { AccessRow, AccountRow, ConfirmationRow, DeviceRow, SessionRow } from '../tables.ts'
import { passkeysOf } from './passkeys-of.ts'
import type { Access, Account, Confirmation, Credentials, Device, Session } from './credentials.ts'

/** The credentials of a site over one engine. */
export function credentialsOf(engine: Engine, site: SiteId): Credentials {
  const { reading } = engine
  return {
    ...accountsOf(engine, site),
    ...devicesOf(engine, site),
    ...passkeysOf(engine, site),
    ...sessionsOf(engine, site),

    keepConfirmation: ({ as, ...rest }) =>
      engine.transact(async (tx) => {
        await tx
          .insertInto('confirmation')
          .values({ site, signed_as: as, ...rest })
          .onConflict((conflict) =>
            conflict.columns(['site', 'entry', 'person', 'signed_as']).doUpdateSet({ how: rest.how, at: rest.at }),
          )
          .execute()
      }),
    async confirmationsOf(entry, since) {
      const rows = await reading
        .selectFrom('confirmation')
        .selectAll()
        .where('site', '=', site)
        .where('entry', '=', entry)
        .where('at', '>=', since)
        .orderBy('at')
        .execute()
      return rows.map(confirmationOf)
    },

    note: (access) =>
      engine.transact(async (tx) => {
        await tx
          .insertInto('access')
          .values({ site, ...access })
          .execute()
      }),
    async accesses({ before, limit }) {
      const rows = await reading
        .selectFrom('access')
        .selectAll()
        .where('site', '=', site)
        // Ids are UUIDs of version 7: their order is that of time.
        .$if(before !== undefined, (query) => query.where('id', '<', before ?? ''))
        .orderBy('id', 'desc')
        .limit(limit)
        .execute()
      return rows.map(accessOf)
    },
  }
}

type Accounts = Pick<Credentials, 'account' | 'accountOfBadge' | 'accounts' | 'keepAccount' | 'countFailure' | 'lock'>

function accountsOf(engine: Engine, site: SiteId): Accounts {
  const all = () => engine.reading.selectFrom('account').selectAll().where('site', '=', site)
  return {
    async account(person) {
      const row = await all().where('person', '=', person).executeTakeFirst()
      return row && accountOf(row)
    },
    async accountOfBadge(badge) {
      const row = await all().where('badge', '=', badge).executeTakeFirst()
      return row && accountOf(row)
    },
    accounts: async () => (await all().orderBy('person').execute()).map(accountOf),
    keepAccount: (account) =>
      engine.transact(async (tx) => {
        const row = accountRow(site, account)
        await tx
          .insertInto('account')
          .values(row)
          .onConflict((conflict) => conflict.columns(['site', 'person']).doUpdateSet(row))
          .execute()
      }),
    countFailure: (person) =>
      engine.transact(async (tx) => {
        const row = await tx
          .updateTable('account')
          .set({ failures: sql<number>`failures + 1` })
          .where('site', '=', site)
          .where('person', '=', person)
          .returning('failures')
          .executeTakeFirst()
        return row?.failures ?? 0
      }),
    lock: (person, until) =>
      engine.transact(async (tx) => {
        await tx
          .updateTable('account')
          .set({ locked_until: until, failures: 0 })
          .where('site', '=', site)
          .where('person', '=', person)
          .execute()
      }),
  }
}

type Devices = Pick<Credentials, 'deviceOf' | 'devices' | 'keepDevice' | 'endDevice'>

function devicesOf(engine: Engine, site: SiteId): Devices {
  const all = () => engine.reading.selectFrom('device').selectAll().where('site', '=', site)
  return {
    async deviceOf(token) {
      const row = await all().where('token', '=', token).where('ended_at', 'is', null).executeTakeFirst()
      return row && deviceOf(row)
    },
    devices: async () => (await all().orderBy('enrolled_at').execute()).map(deviceOf),
    keepDevice: ({ enrolledBy, enrolledAt, endedAt, ...rest }) =>
      engine.transact(async (tx) => {
        await tx
          .insertInto('device')
          .values({ site, ...rest, enrolled_by: enrolledBy, enrolled_at: enrolledAt, ended_at: endedAt })
          .execute()
      }),
    endDevice: (id, at) =>
      engine.transact(async (tx) => {
        await tx.updateTable('device').set({ ended_at: at }).where('site', '=', site).where('id', '=', id).execute()
        await tx
          .updateTable('session')
          .set({ ended_at: at })
          .where('site', '=', site)
          .where('device', '=', id)
          .where('ended_at', 'is', null)
          .execute()
      }),
  }
}

type Sessions = Pick<
  Credentials,
  'startSession' | 'session' | 'sawSession' | 'endSession' | 'endSessionsOf' | 'sessionsOf' | 'wasAt'
>

function sessionsOf(engine: Engine, site: SiteId): Sessions {
  const set = (values: Partial<SessionRow>, where: Partial<Pick<SessionRow, 'token' | 'person'>>) =>
    engine.transact(async (tx) => {
      await tx
        .updateTable('session')
        .set(values)
        .where('site', '=', site)
        .where('ended_at', 'is', null)
        .$if(where.token !== undefined, (query) => query.where('token', '=', where.token ?? ''))
        .$if(where.person !== undefined, (query) => query.where('person', '=', where.person ?? 'person:'))
        .execute()
    })
  return {
    startSession: ({ startedAt, seenAt, endedAt, ...rest }) =>
      engine.transact(async (tx) => {
        await tx
          .insertInto('session')
          .values({ site, ...rest, started_at: startedAt, seen_at: seenAt, ended_at: endedAt })
          .execute()
      }),
    async session(token) {
      const row = await engine.reading
        .selectFrom('session')
        .selectAll()
        .where('site', '=', site)
        .where('token', '=', token)
        .executeTakeFirst()
      return row && sessionOf(row)
    },
    sawSession: (token, at) => set({ seen_at: at }, { token }),
    endSession: (token, at) => set({ ended_at: at }, { token }),
    endSessionsOf: (person, at) => set({ ended_at: at }, { person }),
    async sessionsOf(person) {
      const rows = await engine.reading
        .selectFrom('session')
        .selectAll()
        .where('site', '=', site)
        .where('person', '=', person)
        .where('ended_at', 'is', null)
        .orderBy('started_at', 'desc')
        .orderBy('token')
        .execute()
      return rows.map(sessionOf)
    },
    async wasAt(device, person, since, at) {
      const row = await engine.reading
        .selectFrom('session')
        .select('token')
        .where('site', '=', site)
        .where('device', '=', device)
        .where('person', '=', person)
        .where('started_at', '>=', since)
        .where('started_at', '<=', at)
        .where((where) => where.or([where('ended_at', 'is', null), where('ended_at', '>=', at)]))
        .limit(1)
        .executeTakeFirst()
      return row !== undefined
    },
  }
}

function accountOf(row: AccountRow): Account {
  return {
    person: row.person,
    passphrase: row.passphrase,
    pin: row.pin,
    badge: row.badge,
    code: row.code === null || row.code_until === null ? null : { hash: row.code, until: row.code_until },
    failures: row.failures,
    lockedUntil: row.locked_until,
    changedAt: row.changed_at,
  }
}

function accountRow(site: SiteId, account: Account): AccountRow {
  return {
    site,
    person: account.person,
    passphrase: account.passphrase,
    pin: account.pin,
    badge: account.badge,
    code: account.code?.hash ?? null,
    code_until: account.code?.until ?? null,
    failures: account.failures,
    locked_until: account.lockedUntil,
    changed_at: account.changedAt,
  }
}

function deviceOf({ id, token, name, ...row }: DeviceRow): Device {
  return { id, token, name, enrolledBy: row.enrolled_by, enrolledAt: row.enrolled_at, endedAt: row.ended_at }
}

function sessionOf({ token, person, device, how, ...row }: SessionRow): Session {
  return { token, person, device, how, startedAt: row.started_at, seenAt: row.seen_at, endedAt: row.ended_at }
}

function confirmationOf({ entry, person, how, at, signed_as: as }: ConfirmationRow): Confirmation {
  return { entry, person, as, how, at }
}

function accessOf({ id, at, person, what, about }: AccessRow): Access {
  return { id, at, person, what, about }
}
