import type { SiteId } from '#road/entry.ts'
import type { Db, Tx } from '../tables.ts'

export interface CarriedCredentials {
  readonly accounts: number
  readonly tablets: number
}

const accessAtOnce = 500

/**
 * Who may sign in at a site and by what, its tablets and the log of access, from one database straight into the other: no secret
 * goes through a file, and there are only hashes of them. Sessions stay behind, so that everybody signs in anew.
 */
export async function carryCredentials(from: Db, to: Tx, site: SiteId): Promise<CarriedCredentials> {
  // What was there from an earlier stay of the site has been overtaken.
  for (const table of ['account', 'device', 'passkey', 'challenge', 'session', 'confirmation'] as const) {
    await to.deleteFrom(table).where('site', '=', site).execute()
  }
  const accounts = await from.selectFrom('account').selectAll().where('site', '=', site).execute()
  for (const account of accounts) await to.insertInto('account').values(account).execute()
  const devices = await from.selectFrom('device').selectAll().where('site', '=', site).execute()
  for (const device of devices) await to.insertInto('device').values(device).execute()
  const passkeys = await from.selectFrom('passkey').selectAll().where('site', '=', site).execute()
  for (const passkey of passkeys) await to.insertInto('passkey').values(passkey).execute()
  await carryAccess(from, to, site)
  return { accounts: accounts.length, tablets: devices.filter((device) => device.ended_at === null).length }
}

/** The log is only ever added to: lines that are there stay. */
async function carryAccess(from: Db, to: Tx, site: SiteId): Promise<void> {
  let after = ''
  while (true) {
    const lines = await from
      .selectFrom('access')
      .selectAll()
      .where('site', '=', site)
      .where('id', '>', after)
      .orderBy('id')
      .limit(accessAtOnce)
      .execute()
    const last = lines.at(-1)
    if (last === undefined) return
    await to
      .insertInto('access')
      .values(lines)
      .onConflict((conflict) => conflict.doNothing())
      .execute()
    after = last.id
  }
}
