import { mkdirSync } from 'node:fs'
import { dirname } from 'node:path'
import { DatabaseSync } from 'node:sqlite'
import { Kysely } from 'kysely'
import { invariant } from '#units/invariant.ts'
import type { Engine } from '../engine.ts'
import { formatIsCurrent, writeFormat } from '../format.ts'
import { chainStart, readHead } from '../head.ts'
import { oneAtATime } from '../one-at-a-time.ts'
import type { Tables } from '../tables.ts'
import { nodeSqliteDialect } from './dialect.ts'
import { sqliteTables } from './tables.ts'

/** How long to wait for another process that is writing. */
const busyMilliseconds = 10_000

/** Opens the file of a unit, making it where it is missing. One connection writes, another reads. */
export async function openSqlite(file: string): Promise<Engine> {
  mkdirSync(dirname(file), { recursive: true })
  const writer = connect(file)
  const writing = new Kysely<Tables>({ dialect: nodeSqliteDialect(writer, 'BEGIN IMMEDIATE') })
  try {
    await makeTables(writer, writing)
  } catch (error) {
    writer.close()
    throw error
  }
  const reader = connect(file)
  reader.exec('PRAGMA query_only = ON')
  const reading = new Kysely<Tables>({ dialect: nodeSqliteDialect(reader, 'BEGIN') })
  const inTurn = oneAtATime()
  return {
    name: 'sqlite',
    writing,
    reading,
    async lockHead(tx, site) {
      // The whole file is locked already by BEGIN IMMEDIATE.
      return (await readHead(tx, site)) ?? chainStart
    },
    async lockStore() {},
    transact: (work) => inTurn(() => writing.transaction().execute(work)),
    async snapshot(work) {
      const own = connect(file)
      try {
        own.exec('PRAGMA query_only = ON')
        return await new Kysely<Tables>({ dialect: nodeSqliteDialect(own, 'BEGIN') }).transaction().execute(work)
      } finally {
        own.close()
      }
    },
    // In its turn, so that a transaction that is under way comes to its end.
    close: () =>
      inTurn(async () => {
        for (const connection of [reader, writer]) if (connection.isOpen) connection.close()
      }),
  }
}

async function makeTables(writer: DatabaseSync, writing: Kysely<Tables>): Promise<void> {
  await writing.transaction().execute(async (tx) => {
    writer.exec(sqliteTables)
    if (!(await formatIsCurrent(tx))) await writeFormat(tx)
  })
}

function connect(file: string): DatabaseSync {
  const database = new DatabaseSync(file, { timeout: busyMilliseconds, enableForeignKeyConstraints: true })
  try {
    database.exec('PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA cache_size = -65536')
    // Read back: with synchronous below FULL a power cut loses entries that were acknowledged.
    wanted(database, 'journal_mode', 'wal')
    wanted(database, 'synchronous', 2)
    return database
  } catch (error) {
    database.close()
    throw error
  }
}

function wanted(database: DatabaseSync, pragma: string, value: string | number): void {
  const current = database.prepare(`PRAGMA ${pragma}`).get()?.[pragma]
  invariant(
    current === value,
    `SQLite must run with ${pragma} ${value}: current value is ${String(current)}. Keep the file on a local disk`,
  )
}
