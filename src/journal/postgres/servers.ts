import { setTimeout as wait } from 'node:timers/promises'
import { Client } from 'pg'
import { serverAddresses } from '../place.ts'
import { StoreError } from '../store-error.ts'

/** The servers that an address names, of which one takes writes at a time. */
export interface Servers {
  readonly several: boolean
  /** The address of the one that took writes when it was last looked at. */
  readonly current: () => string
  /** Looks until one takes writes. Several who ask at once share the look. */
  readonly find: () => Promise<void>
  /** Whether a connection leads to a server that takes writes, and is not one that was overtaken. */
  readonly isGood: (client: Pick<Client, 'query'>) => Promise<boolean>
}

interface Seen {
  readonly standby: boolean
  /** Counts the promotions; undefined where the server does not tell. */
  readonly timeline: number | undefined
}

const connectMilliseconds = 3000
const askAgainMilliseconds = 200
/** As long as a manager of failover may take to promote a standby (common practice, no published source). */
const patienceMilliseconds = 30_000

/** Reads the servers of an address: `postgres://user@one:5432,two:5432/database` names two. */
export function serversOf(url: string): Servers {
  const addresses = serverAddresses(url)
  let current = addresses[0] ?? url
  let newestTimeline = 0
  let finding: Promise<void> | undefined

  const isGood = async (client: Pick<Client, 'query'>): Promise<boolean> => {
    const { standby, timeline } = await see(client)
    if (standby) return false
    // A server that was primary before the last promotion has come back: what it took now would be lost.
    if (timeline !== undefined && timeline < newestTimeline) return false
    newestTimeline = Math.max(newestTimeline, timeline ?? 0)
    return true
  }

  const isPrimary = async (address: string): Promise<boolean> => {
    const client = new Client({ connectionString: address, connectionTimeoutMillis: connectMilliseconds })
    client.on('error', () => {})
    try {
      await client.connect()
      return await isGood(client)
    } finally {
      await client.end().catch(() => {})
    }
  }

  const look = async (): Promise<void> => {
    const end = performance.now() + patienceMilliseconds
    let last: unknown
    while (performance.now() < end) {
      for (const address of addresses) {
        try {
          if (await isPrimary(address)) {
            current = address
            return
          }
        } catch (error) {
          last = error
        }
      }
      await wait(askAgainMilliseconds)
    }
    throw last ?? new StoreError(`None of the ${addresses.length} servers of DATABASE_URL takes writes: promote one`)
  }

  return {
    several: addresses.length > 1,
    current: () => current,
    find: () => (finding ??= look().finally(() => (finding = undefined))),
    isGood,
  }
}

async function see(client: Pick<Client, 'query'>): Promise<Seen> {
  const { rows } = await client.query<{ standby: boolean; wal: string | null }>(
    `SELECT pg_is_in_recovery() AS standby,
      CASE WHEN pg_is_in_recovery() THEN NULL ELSE pg_walfile_name(pg_current_wal_lsn()) END AS wal`,
  )
  const [row] = rows
  // The first eight hexadecimal digits of a segment's name are its timeline.
  const timeline = Number.parseInt(row?.wal?.slice(0, 8) ?? '', 16)
  return { standby: row?.standby === true, timeline: Number.isNaN(timeline) ? undefined : timeline }
}
