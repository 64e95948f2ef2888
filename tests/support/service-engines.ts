import { Client } from 'pg'
import { startPostgres, type PostgresServer } from './postgres-server.ts'

/** A service's record on one engine: the environment that leads to an empty one. */
export interface ServiceEngine {
  readonly name: 'sqlite' | 'postgres'
  /** What to add to the environment of a service for a record that nobody has used. */
  readonly newRecord: () => Promise<Readonly<Record<string, string>>>
}

export const sqliteService: ServiceEngine = { name: 'sqlite', newRecord: () => Promise.resolve({}) }

/** Starts a PostgreSQL; each record is a database of its own on it. */
export async function postgresService(): Promise<ServiceEngine & AsyncDisposable> {
  const server: PostgresServer = await startPostgres('fast')
  let records = 0
  return {
    name: 'postgres',
    async newRecord() {
      records += 1
      const name = `service_${process.pid}_${records}`
      const client = new Client({ connectionString: server.url })
      await client.connect()
      try {
        await client.query(`CREATE DATABASE ${name}`)
      } finally {
        await client.end()
      }
      const url = new URL(server.url)
      url.pathname = `/${name}`
      return { DATABASE_URL: url.href }
    },
    [Symbol.asyncDispose]: () => server[Symbol.asyncDispose](),
  }
}
