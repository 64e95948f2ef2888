import { existsSync, mkdirSync, statSync } from 'node:fs'
import { dirname } from 'node:path'
import { DatabaseSync } from 'node:sqlite'
import { Kysely } from 'kysely'
import { invariant } from '#units/invariant.ts'
import type { Engine } from '../engine.ts'
import { chainStart, readHead } from '../head.ts'
import { readFormat, refuseNewer } from '../migrations/format.ts'
import { freeName } from '../migrations/free-name.ts'
import { migrate } from '../migrations/migrate.ts'
import { oneAtATime } from '../one-at-a-time.ts'
import type { Opening } from '../opening.ts'
import { syncFolder } from '../sync-file.ts'
import type { Tables } from '../tables.ts'
import { nodeSqliteDialect } from './dialect.ts'
import { copySqliteChecked } from './file-sqlite.ts'
import { sqliteTables } from './tables.ts'

/** How long to wait for another process that is writing. */
const busyMilliseconds = 10_000

/** Opens the file of a unit, making it where it is missing. One connection writes, another reads. */
export async function openSqlite(file: string, opening: Opening): Promise<Engine> {
  const isNew = !existsSync(file)
  const folder = mkdirSync(dirname(file), { recursive: true })
  const writer = connect(file)
  const writing = new Kysely<Tables>({ dialect: nodeSqliteDialect(writer, 'BEGIN IMMEDIATE') })
  try {
    await makeTables(file, { writer, writing }, opening)
    if (isNew) syncFolder(dirname(file))
    if (folder !== undefined) syncFolder(dirname(folder))
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
    async lockBeside() {},
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
    // One service keeps a file; the command line beside it is found by asking, and does no job of a service.
    elsewhere: { tell: () => {}, hear: () => () => {}, isHearing: () => false },
    alone: async (_job, work) => ({ done: 'here', value: await work() }),
    standby: async () => ({ state: 'alone', says: 'the record is one file: backups keep it from its disk' }),
    async whichStore() {
      const { dev, ino } = statSync(file, { bigint: true })
      return `${dev} ${ino}`
    },
    // In its turn, so that a transaction that is under way comes to its end.
    close: () =>
      inTurn(async () => {
        for (const connection of [reader, writer]) if (connection.isOpen) connection.close()
      }),
  }
}

async function makeTables(
  file: string,
  { writer, writing }: { readonly writer: DatabaseSync; readonly writing: Kysely<Tables> },
  { steps, older, log }: Opening,
): Promise<void> {
  // Held from here to the end, so that no other process writes between the backup and the steps.
  await writing.transaction().execute(async (tx) => {
    const hasMeta = writer.prepare("SELECT 1 FROM sqlite_schema WHERE name = 'meta'").get() !== undefined
    const stored = hasMeta ? await readFormat(tx) : undefined
    refuseNewer(stored, steps)
    if (stored !== undefined && older === 'leave') return
    await migrate(tx, stored, {
      engine: 'sqlite',
      steps,
      makeFirst: async () => writer.exec(sqliteTables),
      async backup(nextFormat) {
        const copy = freeName(`${file}.before-format-${nextFormat}`)
        await copySqliteChecked(file, copy)
        return copy
      },
      log,
    })
  })
}

function connect(file: string): DatabaseSync {
  const database = new DatabaseSync(file, { timeout: busyMilliseconds, enableForeignKeyConstraints: true })
  try {
    database.exec('PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA cache_size = -65536')
    // What is erased is overwritten where it stood, since the page is written anyway.
    database.exec('PRAGMA secure_delete = FAST')
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
