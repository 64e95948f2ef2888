import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { DatabaseSync } from 'node:sqlite'
import { Client } from 'pg'
import type { Place } from '#journal/place.ts'
import { databasesOf } from './postgres-databases.ts'

/** An empty store of one engine, with a way round the journal to its database. */
export interface StoreUnderTest extends AsyncDisposable {
  readonly at: Place
  /** Runs statements as somebody would who went to the database himself. */
  tamper(...statements: readonly string[]): Promise<void>
  /** Takes the guards off, so that what no guard stopped can be planted. */
  dropGuards(): Promise<void>
}

export interface EngineUnderTest {
  readonly name: 'sqlite' | 'postgres'
  /** `bare`: without tables, as where the program has never been. */
  newStore(tables?: 'made' | 'bare'): Promise<StoreUnderTest>
}

const sqliteGuards = [
  'entry_is_never_replaced',
  'entry_is_never_updated',
  'entry_is_never_deleted',
  'attachment_is_never_updated',
  'attachment_is_never_deleted',
]

export const sqliteUnderTest: EngineUnderTest = {
  name: 'sqlite',
  async newStore() {
    const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-sqlite-'))
    const file = join(folder, 'unit.sqlite')
    const tamper = async (...statements: readonly string[]) => {
      const database = new DatabaseSync(file)
      try {
        // Off, as it is by default in other programs.
        database.exec('PRAGMA foreign_keys = OFF')
        for (const statement of statements) database.exec(statement)
      } finally {
        database.close()
      }
    }
    return {
      at: { kind: 'sqlite', file },
      tamper,
      dropGuards: () => tamper(...sqliteGuards.map((name) => `DROP TRIGGER ${name}`)),
      async [Symbol.asyncDispose]() {
        rmSync(folder, { recursive: true, force: true })
      },
    }
  },
}

/** Each store is a database of its own. */
export function postgresUnderTest(server: () => string): EngineUnderTest {
  const databases = databasesOf(server)
  return {
    name: 'postgres',
    async newStore(tables = 'made') {
      const url = await (tables === 'made' ? databases.withTables() : databases.empty())
      const run = async (statements: readonly string[]) => {
        const client = new Client({ connectionString: url, options: '-c search_path=nilgrowth' })
        await client.connect()
        try {
          for (const statement of statements) await client.query(statement)
        } finally {
          await client.end()
        }
      }
      return {
        at: { kind: 'postgres', url },
        tamper: (...statements) => run(statements),
        dropGuards: () =>
          run([
            'DROP TRIGGER entry_is_append_only ON entry',
            'DROP TRIGGER entry_row_is_append_only ON entry',
            'DROP TRIGGER entry_takes_its_id ON entry',
            'DROP TRIGGER attachment_is_append_only ON attachment',
          ]),
        [Symbol.asyncDispose]: () => databases.leave(url),
      }
    },
  }
}
