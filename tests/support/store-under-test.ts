import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { DatabaseSync } from 'node:sqlite'
import { Client } from 'pg'
import type { Place } from '#journal/place.ts'

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
  newStore(): Promise<StoreUnderTest>
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

export function postgresUnderTest(url: () => string): EngineUnderTest {
  let stores = 0
  return {
    name: 'postgres',
    async newStore() {
      stores += 1
      const schema = `contract_${process.pid}_${stores}`
      const run = async (statements: readonly string[]) => {
        const client = new Client({ connectionString: url(), options: `-c search_path=${schema}` })
        await client.connect()
        try {
          for (const statement of statements) await client.query(statement)
        } finally {
          await client.end()
        }
      }
      return {
        at: { kind: 'postgres', url: url(), schema },
        tamper: (...statements) => run(statements),
        dropGuards: () =>
          run(['DROP TRIGGER entry_is_append_only ON entry', 'DROP TRIGGER attachment_is_append_only ON attachment']),
        [Symbol.asyncDispose]: () => run([`DROP SCHEMA IF EXISTS ${schema} CASCADE`]),
      }
    },
  }
}
