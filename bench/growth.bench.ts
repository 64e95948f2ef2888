import assert from 'node:assert/strict'
import { mkdtempSync, rmSync } from 'node:fs'
import { loadavg, tmpdir } from 'node:os'
import { join } from 'node:path'
import { DatabaseSync } from 'node:sqlite'
import { Client } from 'pg'
import { v7 } from 'uuid'
import type { Journal } from '#journal/journal.ts'
import { openJournal } from '#journal/open-journal.ts'
import type { Place } from '#journal/place.ts'
import { SentEntry, SiteId } from '#road/entry.ts'
import { instant } from '#road/instant.ts'
import { policyFrom } from '#road/policy.ts'
import { theRoad } from '#road/the-road.ts'
import { recallExtent } from '#road/tracing/recall-extent.ts'
import { trace } from '#road/tracing/trace.ts'
import { startPostgres } from '../tests/support/postgres-server.ts'
import { type BigRecord, makeBigRecord, site } from './big-record.ts'
import { grasper } from './grasper.ts'
import { type BenchRow, summarise, timed } from './measure.ts'

/*
 * What an append, a list and a trace cost as the record grows, on both engines with the same rows. What is derived is
 * written straight into the tables; the table of entries holds only what is appended here, and is read by its keys alone.
 * BENCH_ROUNDS=10000,100000 for a shorter one.
 */

const sizes = (process.env['BENCH_ROUNDS'] ?? '10000,100000,1000000').split(',').map(Number)
const appends = 60
const lists = 40
const traces = 40
const rowsAtOnce = 5000

export async function growthBench(): Promise<readonly BenchRow[]> {
  const rows: BenchRow[] = []
  const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-bench-'))
  await using server = await startPostgres('synced')
  try {
    for (const rounds of sizes) {
      const record = await makeBigRecord(join(folder, `big-${rounds}.sqlite`), rounds)
      const sqlite: Place = { kind: 'sqlite', file: record.file }
      const postgres: Place = { kind: 'postgres', url: server.url, schema: `growth_${rounds}` }
      await copy(record.file, postgres)
      for (const [name, at] of [
        ['SQLite', sqlite],
        ['PostgreSQL', postgres],
      ] as const)
        rows.push(...(await measure(name, at, record)))
      rmSync(record.file)
      await onServer(postgres, (client) => client.query(`DROP SCHEMA ${postgres.schema} CASCADE`))
    }
  } finally {
    rmSync(folder, { recursive: true })
  }
  return rows
}

async function measure(engine: string, at: Place, record: BigRecord): Promise<readonly BenchRow[]> {
  await using journal = await openJournal({ at, road: theRoad, now: () => instant(Date.now()) })
  const reader = journal.read(SiteId.parse(site))
  const policy = policyFrom(undefined)
  const note = `${record.rounds.toLocaleString('en')} rounds, load of the machine ${loadavg()[0]?.toFixed(1)}`
  const row = (name: string, figures: readonly number[]) => summarise(`${engine}: ${name}`, 'ms', figures, note)

  const append = await appendsOf(journal)
  const list = await times(lists, () => reader.knownOfKind('round', { limit: 50, order: 'newestFirst' }))
  const back = await times(traces, (n) => trace(reader, pick(record.wounds, n), 'back'))
  const recall = await times(traces, (n) => recallExtent(reader, pick(record.recalls, n), policy))
  return [
    row('append one entry, durable', append),
    row('list of 50 rounds', list),
    row('trace back from a wound', back),
    row('recall extent', recall),
  ]
}

function pick<T>(from: readonly T[], n: number): T {
  const picked = from[n % from.length]
  assert.ok(picked !== undefined)
  return picked
}

async function times(count: number, act: (n: number) => Promise<unknown>): Promise<number[]> {
  await act(0)
  const took: number[] = []
  for (let n = 0; n < count; n += 1) took.push(await timed(() => act(n)))
  return took
}

/** One step after the other on a set that goes round, each durable before the next is sent. */
async function appendsOf(journal: Journal): Promise<number[]> {
  await keep(journal, 'device-registered', grasper)
  const countSheet = [{ device: 'device:grasper', count: 2 }]
  await keep(journal, 'set-registered', { set: 'set:bench', name: 'Bench', countSheet })
  await keep(journal, 'reprocessing-started', { round: 'round:bench', set: 'set:bench', because: 'newSet' })
  return await times(appends, () => keep(journal, 'soak-started', { round: 'round:bench', solution: 'enzymatic' }))
}

async function keep(journal: Journal, kind: string, body: Record<string, unknown>): Promise<void> {
  const entry = SentEntry.parse({
    id: v7(),
    site,
    kind,
    happenedAt: instant(Date.now()),
    by: 'person:nilgrowth',
    workstation: 'bench',
    body,
  })
  const outcome = await journal.append(entry)
  assert.equal(outcome.kind, 'kept', JSON.stringify(outcome))
}

/** The same known subjects and links in the other engine. */
async function copy(file: string, to: Extract<Place, { kind: 'postgres' }>): Promise<void> {
  await (await openJournal({ at: to, road: theRoad, now: () => instant(Date.now()) })).close()
  const from = new DatabaseSync(file, { readOnly: true })
  await onServer(to, async (client) => {
    const { rows: indexes } = await client.query<{ indexname: string; indexdef: string }>(
      `SELECT indexname, indexdef FROM pg_indexes WHERE schemaname = current_schema()
        AND tablename IN ('known', 'link') AND indexname NOT LIKE '%_pkey'`,
    )
    for (const { indexname } of indexes) await client.query(`DROP INDEX ${indexname}`)
    await client.query('SET synchronous_commit = off')
    for (const table of ['known', 'link']) await copyTable(from, client, table)
    // Of a partitioned table the definition names the parent only.
    for (const { indexdef } of indexes) await client.query(indexdef.replace(' ON ONLY ', ' ON '))
    await client.query('ANALYZE')
  })
  from.close()
}

async function copyTable(from: DatabaseSync, client: Client, table: string): Promise<void> {
  const columns = from
    .prepare(`SELECT name, type FROM pragma_table_info('${table}')`)
    .all()
    .map((row) => ({ name: String(row['name']), type: row['type'] === 'INTEGER' ? 'int8' : 'text' }))
  const names = columns.map(({ name }) => name).join(', ')
  const lists = columns.map(({ type }, index) => `$${index + 1}::${type}[]`).join(', ')
  const insert = `INSERT INTO ${table} (${names}) SELECT * FROM unnest(${lists})`
  let rows: Record<string, unknown>[] = []
  const flush = async () => {
    await client.query(
      insert,
      columns.map(({ name }) => rows.map((row) => row[name])),
    )
    rows = []
  }
  for (const row of from.prepare(`SELECT ${names} FROM ${table}`).iterate()) {
    rows.push(row)
    if (rows.length === rowsAtOnce) await flush()
  }
  if (rows.length > 0) await flush()
}

async function onServer(
  { url, schema }: Extract<Place, { kind: 'postgres' }>,
  work: (client: Client) => Promise<unknown>,
): Promise<void> {
  const client = new Client({ connectionString: url, options: `-c search_path=${schema ?? 'public'}` })
  await client.connect()
  try {
    await work(client)
  } finally {
    await client.end()
  }
}
