import { databasesOf } from './postgres-databases.ts'
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
  const databases = databasesOf(() => server.url)
  return {
    name: 'postgres',
    newRecord: async () => ({ DATABASE_URL: await databases.withTables() }),
    [Symbol.asyncDispose]: () => server[Symbol.asyncDispose](),
  }
}
