import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { Kysely, PostgresDialect, type PostgresPool, sql } from 'kysely'
import { TypeOverrides } from 'pg'
import type { Engine } from '../engine.ts'
import { backupLines } from '../export.ts'
import { chainStart, readHead } from '../head.ts'
import { writeLines } from '../line-file.ts'
import { BySiteAdapter } from '../lies-by-site.ts'
import { entriesBySite } from '../migrations/entries-by-site.ts'
import { lastFormat, readFormat, refuseNewer } from '../migrations/format.ts'
import { freeName } from '../migrations/free-name.ts'
import { migrate } from '../migrations/migrate.ts'
import { oneAtATime } from '../one-at-a-time.ts'
import type { Opening } from '../opening.ts'
import { type Place, upgradeFolderOf } from '../place.ts'
import type { Tables } from '../tables.ts'
import { alone } from './alone.ts'
import { type Hearing, hearing } from './hearing.ts'
import { poolOf } from './pool.ts'
import { schemaOf } from './schema-of.ts'
import { serversOf } from './servers.ts'
import { readStandby } from './standby.ts'
import { postgresTables } from './tables.ts'

/** PostgreSQL's number of the type int8. */
const int8 = 20
/** Any number would do; it only has to be the same in every process that may make the tables. */
const tablesLock = 71_645_021

type PostgresPlace = Extract<Place, { kind: 'postgres' }>

/** Opens the store in a PostgreSQL database, making its schema and tables where they are missing. */
export async function openPostgres(at: PostgresPlace, opening: Opening): Promise<Engine> {
  const schema = schemaOf(at)
  const servers = serversOf(at.url)
  const pool = poolOf(servers, { options: `-c search_path=${schema}`, types: countsAsNumbers() })
  const adapter = new BySiteAdapter()
  const db = new Kysely<Tables>({ dialect: dialectOf(pool.kysely, adapter) })
  try {
    await makeTables(db, at, opening)
    adapter.liesBySite = ((await readFormat(db)) ?? 0) >= entriesBySite.to
  } catch (error) {
    await db.destroy()
    throw error
  }
  return engineOf(db, {
    elsewhere: hearing({ servers, schema, run: pool.run }),
    alone: (job, work) => alone({ servers, name: `${schema} ${job}` }, work),
  })
}

function dialectOf(pool: PostgresPool, adapter: BySiteAdapter): PostgresDialect {
  return new (class extends PostgresDialect {
    override createAdapter(): BySiteAdapter {
      return adapter
    }
  })({ pool })
}

interface Processes extends Pick<Engine, 'alone'> {
  readonly elsewhere: Hearing
}

function engineOf(db: Kysely<Tables>, { elsewhere, alone }: Processes): Engine {
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
    async lockBeside(tx) {
      await sql`LOCK TABLE account, device, passkey, identity IN SHARE ROW EXCLUSIVE MODE`.execute(tx)
    },
    transact: (work) => inTurn(() => db.transaction().execute(work)),
    snapshot: (work) => db.transaction().setIsolationLevel('repeatable read').setAccessMode('read only').execute(work),
    elsewhere,
    alone,
    standby: () => readStandby(db),
    async whichStore() {
      // A copy of a server's files has its number too, and was not started at the same microsecond.
      const { rows } = await sql<{
        which: string
      }>`SELECT concat_ws(' ', (SELECT system_identifier FROM pg_control_system()),
        extract(epoch FROM pg_postmaster_start_time()), current_database(), current_schema()) AS which`.execute(db)
      return rows[0]?.which ?? ''
    },
    // In its turn, so that a transaction that is under way comes to its end.
    close: () =>
      inTurn(async () => {
        await elsewhere.close()
        await db.destroy()
      }),
  }
}

async function makeTables(db: Kysely<Tables>, at: PostgresPlace, { steps, older, log }: Opening): Promise<void> {
  const schema = schemaOf(at)
  await db.transaction().execute(async (tx) => {
    // Two processes that start together would both find nothing and both make it.
    await sql`SELECT pg_advisory_xact_lock(${tablesLock})`.execute(tx)
    const { rows } = await sql<{
      there: boolean
    }>`SELECT to_regclass(${`${schema}.meta`}) IS NOT NULL AS there`.execute(tx)
    const stored = rows[0]?.there ? await readFormat(tx) : undefined
    refuseNewer(stored, steps)
    // Making triggers anew would wait for every transaction that is writing.
    if (stored !== undefined && (older === 'leave' || stored === lastFormat(steps))) return
    // Keeps other processes from writing between the copy and the steps.
    if (stored !== undefined) await sql`LOCK TABLE head IN EXCLUSIVE MODE`.execute(tx)
    await migrate(tx, stored, {
      engine: 'postgres',
      steps,
      async makeFirst() {
        await sql`CREATE SCHEMA IF NOT EXISTS ${sql.id(schema)}`.execute(tx)
        await sql.raw(postgresTables).execute(tx)
      },
      async backup(nextFormat) {
        const folder = upgradeFolderOf(at)
        mkdirSync(folder, { recursive: true })
        const file = freeName(join(folder, `${schema}-before-format-${nextFormat}`), '.ndjson')
        await writeLines(file, backupLines(tx))
        return file
      },
      log,
    })
  })
}

/** Counts come as numbers. int8 is text by default in this driver; ours stay far below 2 to the power of 53. */
function countsAsNumbers(): TypeOverrides {
  const types = new TypeOverrides()
  types.setTypeParser(int8, Number)
  return types
}
