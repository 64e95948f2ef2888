import assert from 'node:assert/strict'
import { Client } from 'pg'
import { v7 } from 'uuid'
import type { Journal } from '#journal/journal.ts'
import { steps } from '#journal/migrations/steps.ts'
import { openJournal } from '#journal/open-journal.ts'
import type { Place } from '#journal/place.ts'
import { SentEntry } from '#road/entry.ts'
import { instant } from '#road/instant.ts'
import { theRoad } from '#road/the-road.ts'
import { startPostgres } from '../tests/support/postgres-server.ts'
import { grasper } from './grasper.ts'
import { type BenchRow, summarise, timed } from './measure.ts'

/*
 * What it costs and gains on PostgreSQL to let the entries of a site lie in a partition: 500 sites, whose entries came in
 * turn. One table (the format before), 16 partitions by the hash of the site (as it is), and a partition for each site (as it might
 * be). BENCH_ENTRIES_A_SITE=200 for another size.
 */

const sites = 500
const entriesASite = Number(process.env['BENCH_ENTRIES_A_SITE'] ?? 200)
const appends = 200
const asked = 50

type PostgresPlace = Extract<Place, { kind: 'postgres' }>

export async function bySiteBench(): Promise<readonly BenchRow[]> {
  await using server = await startPostgres('synced')
  const one: PostgresPlace = { kind: 'postgres', url: server.url, schema: 'one_table' }
  const hash: PostgresPlace = { kind: 'postgres', url: server.url, schema: 'by_hash' }
  const list: PostgresPlace = { kind: 'postgres', url: server.url, schema: 'by_list' }
  const before = { opening: { steps: steps.filter(({ to }) => to <= 7) } }
  const options = { road: theRoad, now: () => instant(Date.now()) }

  const rows: BenchRow[] = []
  const took = new Map<PostgresPlace, number>()
  for (const [name, at, opening] of [
    ['one table', one, before],
    ['16 by hash', hash, {}],
  ] as const) {
    await (await openJournal({ at, ...options, ...opening })).close()
    took.set(at, await timed(() => onServer(at, (client) => fill(client))))
    rows.push(
      summarise(`${name}: rows into the table`, 'rows/s', [(sites * entriesASite * 1000) / (took.get(at) ?? 0)]),
    )
  }
  const made = await timed(() => onServer(list, (client) => listOf(client)))
  rows.push(summarise('one for each site: making 500 partitions', 's', [made / 1000]))
  await onServer(list, (client) => fill(client))

  for (const [name, at] of [
    ['one table', one],
    ['16 by hash', hash],
    ['one for each site', list],
  ] as const)
    rows.push(...(await onServer(at, (client) => reads(name, client))))

  // In turn, so that a machine that drifts drifts for both.
  const alone = new Map<string, number[]>()
  await using plain = await openJournal({ at: one, ...options, ...before })
  await using parted = await openJournal({ at: hash, ...options })
  for (const journal of [plain, parted]) await begin(journal)
  for (let n = 0; n < appends; n += 1)
    for (const [name, journal] of [
      ['one table', plain],
      ['16 by hash', parted],
    ] as const)
      alone.set(name, [...(alone.get(name) ?? []), await timed(() => soak(journal))])
  for (const [name, figures] of alone) rows.push(summarise(`${name}: append one entry, durable`, 'ms', figures))
  return rows
}

/** Entries of all sites in turn, as they come in over a day. Only their place matters here. */
async function fill(client: Client): Promise<void> {
  await client.query('SET synchronous_commit = off')
  for (let from = 1; from <= entriesASite; from += 20)
    await client.query(
      `INSERT INTO entry (site, seq, id, kind, happened_at, recorded_at, corrects, text, hash)
        SELECT 'site-' || site, seq, lpad(seq::text, 8, '0') || '-' || md5(site || ' ' || seq), 'soak-started', '2026', '2026', NULL,
          (SELECT string_agg(md5(site || ' ' || seq || ' ' || part), '') FROM generate_series(1, 25) part), md5(seq::text)
        FROM generate_series($1::int, $2::int) seq, generate_series(1, $3::int) site ORDER BY seq, site`,
      [from, Math.min(from + 19, entriesASite), sites],
    )
  await client.query('VACUUM ANALYZE entry')
}

/** A table with a partition for each site, as each would be made when a site begins. */
async function listOf(client: Client): Promise<void> {
  await client.query('CREATE SCHEMA by_list')
  await client.query(`CREATE TABLE entry (site text COLLATE "C" NOT NULL, seq int8 NOT NULL, id text COLLATE "C" NOT NULL, kind text NOT NULL,
    happened_at text NOT NULL, recorded_at text NOT NULL, corrects text COLLATE "C", text text NOT NULL, hash text NOT NULL,
    PRIMARY KEY (site, seq), UNIQUE (id, site)) PARTITION BY LIST (site)`)
  await client.query('CREATE INDEX entry_corrects ON entry (corrects) WHERE corrects IS NOT NULL')
  for (let site = 1; site <= sites; site += 1)
    await client.query(`CREATE TABLE entry_${site} PARTITION OF entry FOR VALUES IN ('site-${site}')`)
}

async function reads(name: string, client: Client): Promise<readonly BenchRow[]> {
  const blocks: number[] = []
  const known: number[] = []
  const unknown: number[] = []
  for (let n = 1; n <= asked; n += 1) {
    const { rows } = await client.query<{ 'QUERY PLAN': [{ Plan: Record<string, number> }] }>(
      `EXPLAIN (ANALYZE, BUFFERS, FORMAT JSON) SELECT text FROM entry WHERE site = 'site-${n * 7}' ORDER BY seq LIMIT ${entriesASite}`,
    )
    const { Plan: plan } = rows[0]?.['QUERY PLAN'][0] ?? assert.fail()
    blocks.push((plan['Shared Hit Blocks'] ?? 0) + (plan['Shared Read Blocks'] ?? 0))
    known.push(await timed(() => client.query('SELECT text FROM entry WHERE site = $1 AND seq = 3', [`site-${n * 7}`])))
    unknown.push(await timed(() => client.query('SELECT text FROM entry WHERE id = $1', [v7()])))
  }
  const memory = await client.query<{ bytes: number }>(
    'SELECT sum(total_bytes)::float8 AS bytes FROM pg_backend_memory_contexts',
  )
  return [
    summarise(`${name}: blocks to read ${entriesASite} entries of a site`, 'of 8 kB', blocks),
    summarise(`${name}: one entry of a site`, 'ms', known),
    summarise(`${name}: an id of no known site`, 'ms', unknown),
    summarise(`${name}: memory of the connection after it`, 'MB', [(memory.rows[0]?.bytes ?? 0) / 2 ** 20]),
  ]
}

async function begin(journal: Journal): Promise<void> {
  await keep(journal, 'device-registered', grasper)
  const countSheet = [{ device: 'device:grasper', count: 2 }]
  await keep(journal, 'set-registered', { set: 'set:bench', name: 'Bench', countSheet })
  await keep(journal, 'reprocessing-started', { round: 'round:bench', set: 'set:bench', because: 'newSet' })
}

function soak(journal: Journal): Promise<void> {
  return keep(journal, 'soak-started', { round: 'round:bench', solution: 'enzymatic' })
}

async function keep(journal: Journal, kind: string, body: Record<string, unknown>): Promise<void> {
  const happenedAt = instant(Date.now())
  const who = { by: 'person:nilgrowth', workstation: 'bench' }
  const outcome = await journal.append(SentEntry.parse({ id: v7(), site: 'bench', kind, happenedAt, ...who, body }))
  assert.equal(outcome.kind, 'kept', JSON.stringify(outcome))
}

async function onServer<T>({ url, schema }: PostgresPlace, work: (client: Client) => Promise<T>): Promise<T> {
  const client = new Client({ connectionString: url, options: `-c search_path=${schema ?? ''}` })
  await client.connect()
  try {
    return await work(client)
  } finally {
    await client.end()
  }
}
