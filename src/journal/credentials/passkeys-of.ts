import type { SiteId } from '#road/entry.ts'
import type { Engine } from '../engine.ts'
import type { PasskeyRow } from '../tables.ts'
import type { Credentials, Passkey } from './credentials.ts'

type Passkeys = Pick<
  Credentials,
  'passkey' | 'passkeysOf' | 'keepPasskey' | 'usedPasskey' | 'endPasskeys' | 'keepChallenge' | 'takeChallenge'
>

/** The passkeys of a site over one engine. */
export function passkeysOf(engine: Engine, site: SiteId): Passkeys {
  const all = () => engine.reading.selectFrom('passkey').selectAll().where('site', '=', site)
  return {
    async passkey(id) {
      const row = await all().where('id', '=', id).executeTakeFirst()
      return row && passkeyOf(row)
    },
    passkeysOf: async (person) =>
      (await all().where('person', '=', person).orderBy('kept_at').execute()).map(passkeyOf),
    keepPasskey: ({ publicKey, keptAt, usedAt, ...rest }) =>
      engine.transact(async (tx) => {
        await tx
          .insertInto('passkey')
          .values({ site, ...rest, public_key: publicKey, kept_at: keptAt, used_at: usedAt })
          .execute()
      }),
    usedPasskey: (id, counter, at) =>
      engine.transact(async (tx) => {
        await tx
          .updateTable('passkey')
          .set({ counter, used_at: at })
          .where('site', '=', site)
          .where('id', '=', id)
          .execute()
      }),
    endPasskeys: (person, id) =>
      engine.transact(async (tx) => {
        const ended = await tx
          .deleteFrom('passkey')
          .where('site', '=', site)
          .where('person', '=', person)
          .$if(id !== undefined, (query) => query.where('id', '=', id ?? ''))
          .returning('id')
          .execute()
        return ended.length > 0
      }),

    keepChallenge: (digest, until, now) =>
      engine.transact(async (tx) => {
        await tx.deleteFrom('challenge').where('site', '=', site).where('until', '<', now).execute()
        await tx.insertInto('challenge').values({ site, digest, until }).execute()
      }),
    takeChallenge: (digest, now) =>
      engine.transact(async (tx) => {
        const row = await tx
          .deleteFrom('challenge')
          .where('site', '=', site)
          .where('digest', '=', digest)
          .returning('until')
          .executeTakeFirst()
        return row !== undefined && row.until >= now
      }),
  }
}

function passkeyOf({ id, person, counter, host, name, ...row }: PasskeyRow): Passkey {
  return { id, person, counter, host, name, publicKey: row.public_key, keptAt: row.kept_at, usedAt: row.used_at }
}
