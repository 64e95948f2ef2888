import { Client } from 'pg'
import type { Alone } from '../engine.ts'
import type { Servers } from './servers.ts'

/** The first half of the keys of these locks; any number would do that no other lock has. */
const jobsLock = 71_645_022

/**
 * Does a job under a lock of the database that lasts as long as its own connection: a process that is killed gives it
 * back, and no clock decides. When the connection breaks the job goes on and another process may begin it as well, so
 * whoever gets the lock looks first whether there is still something to do.
 */
export async function alone<T>(
  { servers, name }: { readonly servers: Servers; readonly name: string },
  work: () => Promise<T>,
): Promise<Alone<T>> {
  const client = new Client({ connectionString: servers.current(), connectionTimeoutMillis: 5000, keepAlive: true })
  client.on('error', () => {})
  try {
    await client.connect()
    const { rows } = await client.query<{ mine: boolean }>('SELECT pg_try_advisory_lock($1, hashtext($2)) AS mine', [
      jobsLock,
      name,
    ])
    if (rows[0]?.mine !== true) return { done: 'elsewhere' }
    return { done: 'here', value: await work() }
  } finally {
    await client.end().catch(() => {})
  }
}
