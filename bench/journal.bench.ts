import assert from 'node:assert/strict'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { DatabaseSync } from 'node:sqlite'
import { v7 } from 'uuid'
import type { Journal } from '#journal/journal.ts'
import { openJournal } from '#journal/open-journal.ts'
import { SentEntry } from '#road/entry.ts'
import { instant } from '#road/instant.ts'
import { theRoad } from '#road/the-road.ts'
import { grasper } from './grasper.ts'
import { type BenchRow, summarise, timed } from './measure.ts'

/*
 * Durable appends through the journal (judged, folded, linked, chained) against one raw insert and commit of a text of
 * the same size, with the same sync setting on the same disk. All of one run is measured back to back, so that the
 * ratios stand although the disk's speed drifts.
 */

const runs = 7
const alone = 300
const clients = 50
const eachClient = 40

interface Run {
  readonly raw: number
  readonly one: number
  readonly fifty: number
  readonly many: number
  readonly refold: number
}

export async function journalBench(): Promise<readonly BenchRow[]> {
  const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-bench-'))
  try {
    await measure(join(folder, 'warm-up'))
    const all: Run[] = []
    for (let run = 0; run < runs; run += 1) all.push(await measure(join(folder, `run${run}`)))
    return rowsOf(all)
  } finally {
    rmSync(folder, { recursive: true })
  }
}

function rowsOf(all: readonly Run[]): readonly BenchRow[] {
  const row = (name: string, unit: string, figure: (run: Run) => number, note?: string) =>
    summarise(name, unit, all.map(figure), note)
  return [
    row('raw SQLite insert and commit', 'commits/s', (run) => run.raw, 'synchronous FULL, one row of the same size'),
    row('journal, 1 client', 'appends/s', (run) => run.one, 'each durable before the next is sent'),
    row('journal, 1 client, against raw', 'times', (run) => run.one / run.raw),
    row(`journal, ${clients} clients`, 'appends/s', (run) => run.fifty, 'each client waits for its answer'),
    row(`journal, ${clients} clients, against raw`, 'times', (run) => run.fifty / run.raw),
    row('journal, one call with many', 'appends/s', (run) => run.many, '2,000 entries, 256 to a commit'),
    row('refold', 'entries/s', (run) => run.refold, 'all that is derived made anew'),
  ]
}

async function measure(base: string): Promise<Run> {
  await using journal = await openJournal({
    at: { kind: 'sqlite', file: `${base}.sqlite` },
    road: theRoad,
    now: () => instant(Date.now()),
  })
  await keep(journal, entry('device-registered', grasper))
  await keep(journal, entry('set-registered', { set: 'set:lap-a', name: 'Laparoscopy A', countSheet: sheet }))
  const rounds = Array.from({ length: 200 }, (_, index) => `round:r${index}`)
  for (const round of rounds) {
    await keep(journal, entry('reprocessing-started', { round, set: 'set:lap-a', because: 'newSet' }))
  }
  let next = 0
  const soak = () => entry('soak-started', { round: rounds[(next += 1) % rounds.length], solution: 'enzymatic' })
  const bytes = JSON.stringify(soak()).length + 300

  const raw = rawCommits(`${base}.raw.sqlite`, bytes)
  const one = await rate(alone, async () => {
    for (let count = 0; count < alone; count += 1) await keep(journal, soak())
  })
  const client = async () => {
    for (let count = 0; count < eachClient; count += 1) await keep(journal, soak())
  }
  const fifty = await rate(clients * eachClient, () => Promise.all(Array.from({ length: clients }, client)))
  const entries = Array.from({ length: 2000 }, soak)
  const many = await rate(entries.length, async () => {
    const outcomes = await journal.appendMany(entries)
    assert.ok(outcomes.every((outcome) => outcome.kind === 'kept'))
  })
  let count = 0
  const took = await timed(async () => (count = await journal.refold()))
  return { raw, one, fifty, many, refold: (count / took) * 1000 }
}

const sheet = [{ device: 'device:grasper', count: 2 }]

async function keep(journal: Journal, sent: SentEntry): Promise<void> {
  const outcome = await journal.append(sent)
  assert.equal(outcome.kind, 'kept', JSON.stringify(outcome))
}

function entry(kind: string, body: Record<string, unknown>): SentEntry {
  return SentEntry.parse({
    id: v7(),
    site: 'bench',
    kind,
    happenedAt: instant(Date.now()),
    by: 'person:nilgrowth',
    workstation: 'bench',
    body,
  })
}

function rawCommits(file: string, bytes: number): number {
  const database = new DatabaseSync(file)
  database.exec('PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL')
  database.exec('CREATE TABLE entry (id TEXT PRIMARY KEY, text TEXT NOT NULL) STRICT')
  const insert = database.prepare('INSERT INTO entry VALUES (?, ?)')
  const text = 'x'.repeat(bytes)
  const started = performance.now()
  for (let count = 0; count < alone; count += 1) insert.run(v7(), text)
  const took = performance.now() - started
  database.close()
  return (alone / took) * 1000
}

async function rate(count: number, act: () => Promise<unknown>): Promise<number> {
  return (count / (await timed(act))) * 1000
}
