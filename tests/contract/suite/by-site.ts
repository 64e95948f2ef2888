import assert from 'node:assert/strict'
import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join as path } from 'node:path'
import { describe, test } from 'node:test'
import { sql } from 'kysely'
import { steps } from '#journal/migrations/steps.ts'
import { openEngine, openJournal } from '#journal/open-journal.ts'
import { readerOf } from '#journal/reader.ts'
import { verify } from '#journal/verify/verify.ts'
import type { Tx } from '#journal/tables.ts'
import { type SentEntry, SiteId } from '#road/entry.ts'
import { entryId, join, makeSet, mark, minutes, otherSite, site, withdraw } from '../../support/entries.ts'
import type { EngineUnderTest, StoreUnderTest } from '../../support/store-under-test.ts'
import { toyRoad } from '../../support/toy-road.ts'
import { keepAll, open, standingClock, wantSound } from './opened.ts'

const thirdSite = SiteId.parse('unit-c')
const sites = [site, otherSite, thirdSite]
const partitions = Array.from({ length: 16 }, (_, number) => String(number).padStart(2, '0'))
const road = toyRoad()
const { now } = standingClock()

/** The same story at every site, with ids of its own: corrections and a withdrawal with the rest. */
function storyOf(site: SiteId, first: number): SentEntry[] {
  return [
    makeSet(first, 'a', { site }),
    makeSet(first + 1, 'b', { site }),
    mark(first + 2, 'a', { site, at: minutes(1), mark: 'zwölf µm \u2028' }),
    join(first + 3, ['a', 'b'], { site, at: minutes(2) }),
    mark(first + 4, 'a', { site, at: minutes(3), corrects: first + 2 }),
    withdraw(first + 5, first + 3, { site, at: minutes(4) }),
  ]
}

const stories = sites.flatMap((site, index) => storyOf(site, 100 * (index + 1)))

async function filled(engine: EngineUnderTest): Promise<StoreUnderTest> {
  const store = await engine.newStore()
  await using journal = await open(store)
  await keepAll(journal, stories)
  return store
}

/** The tables of these names, and partitions of them, that the transaction has opened: it holds a lock on each. */
async function openedBy(tx: Tx): Promise<string[]> {
  const { rows } = await sql<{ name: string }>`
    SELECT relname AS name FROM pg_locks JOIN pg_class ON pg_class.oid = relation
    WHERE pid = pg_backend_pid() AND relkind = 'r' AND relname ~ '^(entry|about|link)_[0-9]+$'
    ORDER BY relname`.execute(tx)
  return rows.map(({ name }) => name)
}

async function linesOf(store: StoreUnderTest, options: { opening?: { steps: typeof steps } } = {}): Promise<string[]> {
  await using journal = await openJournal({ at: store.at, road, now, ...options })
  const lines: string[] = []
  for await (const line of journal.exportLines()) lines.push(line)
  return lines
}

/** What holds on PostgreSQL alone, where the entries of a site lie in one partition. */
export function lyingBySite(engine: EngineUnderTest): void {
  describe('entries lie by their site', () => {
    test('what a site is asked opens one partition of each table, as EXPLAIN says too', async () => {
      await using store = await filled(engine)
      const opened = await openEngine(store.at)
      try {
        const reader = readerOf(opened.reading, thirdSite, road)
        const asked: readonly [string, (of: typeof reader) => Promise<unknown>, readonly RegExp[]][] = [
          ['an entry', (of) => of.entry(entryId(302)), [/^entry_/]],
          ['a page of the chain', (of) => of.entries({ afterSeq: 0, limit: 10 }), [/^entry_/]],
          ['the entries of a subject', (of) => of.entriesAbout('set:a'), [/^about_/, /^entry_/]],
          ['links', (of) => of.links({ end: 'to', subjects: ['set:b'] }), [/^link_/]],
          ['a moment', (of) => of.asOf(3).known(['set:a']), [/^about_/, /^entry_/]],
        ]
        for (const [name, ask, wanted] of asked) {
          const tables = await opened.reading.transaction().execute(async (tx) => {
            await ask(readerOf(tx, thirdSite, road))
            return await openedBy(tx)
          })
          assert.equal(tables.length, wanted.length, `${name} opened ${tables.join(', ')}`)
          for (const [index, pattern] of wanted.entries()) assert.match(tables[index] ?? '', pattern)
        }
        const plan = await sql<{ 'QUERY PLAN': string }>`
          EXPLAIN SELECT text, hash FROM entry WHERE site = ${thirdSite} AND seq > 0 ORDER BY seq LIMIT 10`.execute(
          opened.reading,
        )
        const named = plan.rows.flatMap((row) => row['QUERY PLAN'].match(/on entry_\d\d/g) ?? [])
        assert.equal(new Set(named).size, 1, JSON.stringify(plan.rows))
      } finally {
        await opened.close()
      }
    })

    test('a partition that is written to by its own name refuses it, by every statement', async () => {
      await using store = await filled(engine)
      const opened = await openEngine(store.at)
      try {
        for (const name of partitions) {
          const table = `entry_${name}`
          const refused = new RegExp(`the journal is append only: [A-Z]+ of ${table} is refused`)
          for (const [statement, says] of [
            [`INSERT INTO ${table} SELECT * FROM entry`, refused],
            [`INSERT INTO ${table} SELECT * FROM ${table} ON CONFLICT DO NOTHING`, refused],
            [`UPDATE ${table} SET text = 'x'`, refused],
            [`DELETE FROM ${table}`, refused],
            // All sixteen, since their corrections refer to the whole table.
            [`TRUNCATE ${table} CASCADE`, /the journal is append only: TRUNCATE of entry\w* is refused/],
            [`TRUNCATE ${table}`, /cannot truncate a table referenced in a foreign key constraint/],
          ] as const)
            await assert.rejects(sql.raw(statement).execute(opened.reading), says, statement)
        }
      } finally {
        await opened.close()
      }
      await wantSound(store)
    })

    test('with the guards of the statements gone those of the rows still refuse, at the whole table and at a partition', async () => {
      await using store = await filled(engine)
      await store.tamper(
        'DROP TRIGGER entry_is_append_only ON entry',
        ...partitions.map((name) => `DROP TRIGGER entry_${name}_is_append_only ON entry_${name}`),
      )
      const [own] = await partitionsWithRows(store)
      assert.ok(own !== undefined)
      for (const table of ['entry', own])
        for (const statement of [`UPDATE ${table} SET kind = kind`, `DELETE FROM ${table}`])
          await assert.rejects(store.tamper(statement), /the journal is append only: [A-Z]+ of entry_\d\d/, statement)
      await wantSound(store)
    })

    test('the ids are only added to, and the database itself keeps one from two sites', async () => {
      await using store = await filled(engine)
      for (const statement of ["UPDATE entry_id SET id = id || 'x'", 'DELETE FROM entry_id', 'TRUNCATE entry_id'])
        await assert.rejects(store.tamper(statement), /the journal is append only: [A-Z]+ of entry_id/, statement)
      const again = `INSERT INTO entry SELECT 'unit-d', seq, id, kind, happened_at, recorded_at, NULL, text, hash
        FROM entry WHERE site = '${site}' AND seq = 1`
      await assert.rejects(store.tamper(again), { code: '23505', constraint: 'entry_id_pkey' })
      await wantSound(store)
    })

    test('the database refuses a correction of an entry of another site', async () => {
      await using store = await filled(engine)
      const across = `INSERT INTO entry SELECT '${otherSite}', 99, id || 'x', kind, happened_at, recorded_at, '${entryId(103)}', text, hash
        FROM entry WHERE site = '${site}' AND seq = 1`
      await assert.rejects(store.tamper(across), { code: '23503' })
      await wantSound(store)
    })

    test('one id that two services send for two sites at the same moment is kept once', async () => {
      await using store = await engine.newStore()
      await using one = await open(store)
      await using two = await open(store)
      for (let number = 1; number <= 20; number += 1) {
        const [here, there] = [makeSet(number, `s${number}`), makeSet(number, `s${number}`, { site: otherSite })]
        const settled = await Promise.allSettled([one.append(here), two.append(there)])
        const kinds = settled.map((each) => (each.status === 'fulfilled' ? each.value.kind : each.status))
        assert.equal(kinds.filter((kind) => kind === 'kept').length, 1, kinds.join(', '))
        // Whoever came second is told so, at the latest when he sends it again.
        const again = await Promise.all([one.append(here), two.append(there)])
        assert.deepEqual(again.map(({ kind }) => kind).sort(), ['alreadyKept', 'idTaken'])
      }
      await wantSound(store)
    })

    test('a store of format 7 with three sites keeps every text and hash, and is sound', async () => {
      await using store = await engine.newStore('bare')
      const folder = mkdtempSync(path(tmpdir(), 'nilgrowth-by-site-'))
      try {
        const at = { ...store.at, upgradeFolder: folder } as StoreUnderTest['at']
        const older = { opening: { steps: steps.filter(({ to }) => to <= 7) } }
        {
          await using journal = await openJournal({ at, road, now, ...older })
          await keepAll(journal, stories)
        }
        const before = await linesOf(store, older)
        assert.equal(before.length, 1 + stories.length)
        const told: string[] = []
        const opening = { log: (line: string) => void told.push(line) }
        await (await openJournal({ at, road, now, opening })).close()
        assert.match(told.join('\n'), /from format 7 to 8; the store as it was is kept/)
        assert.equal(readdirSync(folder).length, 1)
        assert.deepEqual(await linesOf(store), before)
        const result = await verify({ at, road })
        assert.ok(result.kind === 'sound')
        assert.deepEqual([result.sites, result.entries], [3, stories.length])
        assert.ok((await partitionsWithRows(store)).length > 1, 'the sites lie in several partitions')

        // It goes on, and ids from before are still taken.
        await using journal = await open(store)
        await keepAll(journal, [mark(900, 'a', { site: thirdSite, at: minutes(5), corrects: 304 })])
        assert.equal((await journal.append(makeSet(100, 'z', { site: thirdSite }))).kind, 'idTaken')
      } finally {
        rmSync(folder, { recursive: true })
      }
      await wantSound(store)
    })

    test('a store of format 7 with a correction across sites is refused and stays as it was', async () => {
      await using store = await engine.newStore('bare')
      const folder = mkdtempSync(path(tmpdir(), 'nilgrowth-by-site-'))
      try {
        const at = { ...store.at, upgradeFolder: folder } as StoreUnderTest['at']
        const older = { opening: { steps: steps.filter(({ to }) => to <= 7) } }
        {
          await using journal = await openJournal({ at, road, now, ...older })
          await keepAll(journal, stories)
        }
        await store.tamper(
          `INSERT INTO entry SELECT '${otherSite}', 99, id || 'x', kind, happened_at, recorded_at, id, text, hash
            FROM entry WHERE site = '${site}' AND seq = 1`,
        )
        const before = await linesOf(store, older)
        await assert.rejects(openJournal({ at, road, now }), { code: '23503' })
        // Opened by the program of before, which would refuse a newer store.
        assert.deepEqual(await linesOf(store, older), before)
      } finally {
        rmSync(folder, { recursive: true })
      }
    })
  })
}

async function partitionsWithRows(store: StoreUnderTest): Promise<string[]> {
  const opened = await openEngine(store.at, 'asItIs')
  try {
    const { rows } = await sql<{ name: string }>`SELECT DISTINCT tableoid::regclass::text AS name FROM entry`.execute(
      opened.reading,
    )
    return rows.map(({ name }) => name)
  } finally {
    await opened.close()
  }
}
