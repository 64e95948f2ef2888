import { Kysely, PostgresDialect, sql } from 'kysely'
import { Pool, TypeOverrides } from 'pg'
import type { Engine } from '../engine.ts'
import { formatIsCurrent, writeFormat } from '../format.ts'
import { chainStart, readHead } from '../head.ts'
import { oneAtATime } from '../one-at-a-time.ts'
import type { Place } from '../place.ts'
import type { Tables } from '../tables.ts'
import { schemaOf } from './schema-of.ts'
import { postgresTables } from './tables.ts'

/** PostgreSQL's number of the type int8. */
const int8 = 20
/** Any number would do; it only has to be the same in every process that may make the tables. */
const tablesLock = 71_645_021

/** Opens the store in a PostgreSQL database, making its schema and tables where they are missing. */
export async function openPostgres(at: Extract<Place, { kind: 'postgres' }>): Promise<Engine> {
  const schema = schemaOf(at)
  const pool = new Pool({
    connectionString: at.url,
    options: `-c search_path=${schema}`,
    max: 10,
    types: countsAsNumbers(),
  })
  // A connection that breaks while it is idle is replaced by the pool; without a listener it would end the program.
  pool.on('error', (error) => process.emitWarning(error))
  const db = new Kysely<Tables>({ dialect: new PostgresDialect({ pool }) })
  try {
    await makeTables(db, schema)
  } catch (error) {
    await db.destroy()
    throw error
  }
  return engineOf(db)
}

function engineOf(db: Kysely<Tables>): Engine {
  const inTurn = oneAtATime()
  return {
    name: 'postgres',
    writing: db,
    reading: db,
    async lockHead(tx, site) {
      const lockRow = () => tx.selectFrom('head').select('site').where('site', '=', site).forUpdate().executeTakeFirst()
      if ((await lockRow()) === undefined) {
        // A new site has no row to hold: its name is locked, and the row that another process may have made meanwhile.
        await sql`SELECT pg_advisory_xact_lock(${tablesLock}, hashtext(${site}))`.execute(tx)
        await lockRow()
      }
      return (await readHead(tx, site)) ?? chainStart
    },
    async lockStore(tx) {
      // Lets others read, and keeps them from locking the head of any site.
      await sql`LOCK TABLE head IN EXCLUSIVE MODE`.execute(tx)
    },
    transact: (work) => inTurn(() => db.transaction().execute(work)),
    snapshot: (work) => db.transaction().setIsolationLevel('repeatable read').setAccessMode('read only').execute(work),
    // In its turn, so that a transaction that is under way comes to its end.
    close: () => inTurn(() => db.destroy()),
  }
}

async function makeTables(db: Kysely<Tables>, schema: string): Promise<void> {
  await db.transaction().execute(async (tx) => {
    // Two processes that start together would both find nothing and both make it.
    await sql`SELECT pg_advisory_xact_lock(${tablesLock})`.execute(tx)
    const { rows } = await sql<{
      there: boolean
    }>`SELECT to_regclass(${`${schema}.meta`}) IS NOT NULL AS there`.execute(tx)
    // Making triggers anew would wait for every transaction that is writing.
    if (rows[0]?.there && (await formatIsCurrent(tx))) return
    await sql`CREATE SCHEMA IF NOT EXISTS ${sql.id(schema)}`.execute(tx)
    await sql.raw(postgresTables).execute(tx)
    await writeFormat(tx)
  })
}

/** Counts come as numbers. int8 is text by default in this driver; ours stay far below 2 to the power of 53. */
function countsAsNumbers(): TypeOverrides {
  const types = new TypeOverrides()
  types.setTypeParser(int8, Number)
  return types
}
