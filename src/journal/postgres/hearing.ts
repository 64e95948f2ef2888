import { randomUUID } from 'node:crypto'
import { Client, escapeLiteral } from 'pg'
import { SiteId } from '#road/entry.ts'
import type { Elsewhere } from '../engine.ts'
import type { Servers } from './servers.ts'

const firstRetryMilliseconds = 250
const lastRetryMilliseconds = 5000
/** How long a connection may be silent before it is asked whether it lives. */
const beatMilliseconds = 10_000

export interface Hearing extends Elsewhere {
  close(): Promise<void>
}

interface HearingParts {
  readonly servers: Servers
  readonly schema: string
  /** Runs a statement on a connection of the pool. */
  readonly run: (statement: string) => Promise<unknown>
}

/**
 * What processes on one database tell each other, by LISTEN and NOTIFY. It is a hint and no part of the record: it is sent
 * after the commit and on its own, since a NOTIFY within a transaction would make all sites commit one after the other.
 * Whoever misses one finds out when it asks.
 */
export function hearing({ servers, schema, run }: HearingParts): Hearing {
  const channel = `nilgrowth_${schema}`
  // What this process says itself it need not hear.
  const own = randomUUID()
  const listeners = new Set<(site: SiteId | undefined) => void>()
  const untold = new Set<SiteId>()
  let telling: Promise<void> | undefined
  let client: Client | undefined
  let connected = false
  let closed = false
  let retry = firstRetryMilliseconds
  let timer: NodeJS.Timeout | undefined

  const tellAll = async (): Promise<void> => {
    while (untold.size > 0) {
      const sites = [...untold]
      untold.clear()
      const notify = sites.map(
        (site) => `SELECT pg_notify(${escapeLiteral(channel)}, ${escapeLiteral(`${own} ${site}`)});`,
      )
      // Without waiting for a disk: nothing hangs on it.
      await run(`BEGIN; SET LOCAL synchronous_commit = off; ${notify.join(' ')} COMMIT`)
    }
  }

  const call = (site: SiteId | undefined): void => {
    for (const listener of listeners) listener(site)
  }

  const lost = (from: Client): void => {
    if (client !== from) return
    client = undefined
    connected = false
    clearTimeout(timer)
    void from.end().catch(() => {})
    if (closed || listeners.size === 0) return
    timer = setTimeout(listenAgain, retry).unref()
    retry = Math.min(retry * 2, lastRetryMilliseconds)
  }

  const beat = (of: Client): void => {
    timer = setTimeout(() => {
      of.query('SELECT 1').then(
        () => {
          if (client === of) beat(of)
        },
        () => lost(of),
      )
    }, beatMilliseconds).unref()
  }

  const listen = (): void => {
    const made = new Client({
      connectionString: servers.current(),
      connectionTimeoutMillis: 5000,
      query_timeout: 5000,
      keepAlive: true,
    })
    client = made
    made.on('error', () => lost(made))
    made.on('end', () => lost(made))
    made.on('notification', ({ payload = '' }) => {
      const [from, name] = payload.split(' ')
      const site = SiteId.safeParse(name)
      if (from !== own && site.success) call(site.data)
    })
    begin(made).catch(() => lost(made))
  }

  const begin = async (made: Client): Promise<void> => {
    await made.connect()
    await made.query(`LISTEN ${channel}`)
    if (client !== made) return
    connected = true
    retry = firstRetryMilliseconds
    // Something may have been said while nobody listened.
    call(undefined)
    beat(made)
  }

  /** The server that was listened at may have given way to another one. */
  const listenAgain = (): void => {
    const found = servers.several ? servers.find() : Promise.resolve()
    void found
      .catch(() => {})
      .then(() => {
        if (!closed && client === undefined) listen()
      })
  }

  return {
    tell(site) {
      untold.add(site)
      // A hint that cannot be given is none: the others ask.
      telling ??= tellAll()
        .catch(() => {})
        .finally(() => (telling = undefined))
    },
    hear(listener) {
      listeners.add(listener)
      if (client === undefined && !closed) listen()
      return () => listeners.delete(listener)
    },
    isHearing: () => connected,
    async close() {
      closed = true
      clearTimeout(timer)
      const last = client
      client = undefined
      await telling
      await last?.end().catch(() => {})
    },
  }
}
