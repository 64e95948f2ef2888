import { Client, escapeIdentifier } from 'pg'
import type { Place } from '../place.ts'
import { schemaOf } from './schema-of.ts'
import { serversOf } from './servers.ts'

/** What follows the name of a store that gave way. */
const setAside = 'replaced_'

type PostgresPlace = Extract<Place, { kind: 'postgres' }>

/** Removes a store that was being restored and did not come to its end. */
export async function dropSchema(place: PostgresPlace): Promise<void> {
  await withClient(place, async (client) => {
    await client.query(`DROP SCHEMA IF EXISTS ${escapeIdentifier(schemaOf(place))} CASCADE`)
  })
}

/** The stores that gave way to a restored one. */
export async function schemasSetAside(at: PostgresPlace): Promise<readonly string[]> {
  let schemas: readonly string[] = []
  await withClient(at, async (client) => {
    const { rows } = await client.query<{ name: string }>(
      'SELECT nspname AS name FROM pg_namespace WHERE starts_with(nspname, $1) ORDER BY nspname',
      [`${schemaOf(at)}_${setAside}`],
    )
    schemas = rows.map(({ name }) => name)
  })
  return schemas
}

/** Puts one schema in the place of another, which is kept under the name that is given back. */
export async function swapSchemas(beside: Place, at: PostgresPlace, stamp: string): Promise<string> {
  const aside = `${schemaOf(at)}_${setAside}${stamp}`
  await withClient(at, async (client) => {
    const rename = (from: string, to: string) =>
      client.query(`ALTER SCHEMA ${escapeIdentifier(from)} RENAME TO ${escapeIdentifier(to)}`)
    await client.query('BEGIN')
    await rename(schemaOf(at), aside)
    if (beside.kind === 'postgres') await rename(schemaOf(beside), schemaOf(at))
    await client.query('COMMIT')
  })
  return aside
}

async function withClient(place: PostgresPlace, work: (client: Client) => Promise<void>): Promise<void> {
  const servers = serversOf(place.url)
  if (servers.several) await servers.find()
  const client = new Client({ connectionString: servers.current() })
  await client.connect()
  try {
    await work(client)
  } finally {
    // Ends an open transaction too, by rolling it back.
    await client.end()
  }
}
