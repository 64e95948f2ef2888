import type { PostgresPool } from 'kysely'
import { Client, type ClientConfig, Pool, type PoolClient, type PoolConfig } from 'pg'
import type { Servers } from './servers.ts'

const connections = 10

export interface ServerPool {
  readonly kysely: PostgresPool
  /** Runs statements on a connection of the pool, outside of any transaction of the journal. */
  readonly run: (statements: string) => Promise<void>
}

/**
 * Connections to whichever server takes writes. With several servers a connection is looked at before its first use,
 * and when the server has gone, the one that took its place is looked for: a failover is waited for and not passed on.
 */
export function poolOf(servers: Servers, settings: Pick<PoolConfig, 'options' | 'types'>): ServerPool {
  const pool = new Pool({
    ...settings,
    Client: clientOf(servers),
    max: connections,
    keepAlive: true,
    ...(servers.several ? { connectionTimeoutMillis: 5000 } : {}),
  })
  // A connection that breaks while it is idle is replaced by the pool, and one that breaks at work fails its query;
  // without listeners either would end the program.
  pool.on('error', (error) => process.emitWarning(error))
  pool.on('connect', (client) => client.on('error', () => {}))
  const looked = new WeakSet<PoolClient>()

  const good = async (): Promise<PoolClient | undefined> => {
    const client = await pool.connect()
    if (looked.has(client)) return client
    try {
      if (await servers.isGood(client)) {
        looked.add(client)
        return client
      }
    } catch (error) {
      client.release(true)
      throw error
    }
    client.release(true)
    return undefined
  }

  const connect = async (): Promise<PoolClient> => {
    if (!servers.several) return await pool.connect()
    try {
      const client = await good()
      if (client !== undefined) return client
    } catch (error) {
      if (!isGone(error)) throw error
    }
    await servers.find()
    return (await good()) ?? (await pool.connect())
  }

  return {
    kysely: { connect, end: () => pool.end(), options: {} },
    async run(statements) {
      const client = await connect()
      let broken = true
      try {
        await client.query(statements)
        broken = false
      } finally {
        client.release(broken)
      }
    },
  }
}

/** A client that goes to the server that is current when it is made. */
function clientOf(servers: Servers): new (config?: string | ClientConfig) => Client {
  return class extends Client {
    constructor(config?: string | ClientConfig) {
      super({ ...(typeof config === 'object' ? config : {}), connectionString: servers.current() })
    }
  }
}

/** The server does not answer, is shutting down or starting, or broke the connection. */
function isGone(error: unknown): boolean {
  if (!(error instanceof Error)) return false
  const code = 'code' in error ? String(error.code) : ''
  return code === '' || /^(?:E[A-Z]+|57P0\d|08\d{3})$/.test(code)
}
