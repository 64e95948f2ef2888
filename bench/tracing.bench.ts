import assert from 'node:assert/strict'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { performance } from 'node:perf_hooks'
import { DatabaseSync } from 'node:sqlite'
import { openJournal } from '#journal/open-journal.ts'
import type { Reader } from '#journal/journal.ts'
import { SiteId } from '#road/entry.ts'
import { instant } from '#road/instant.ts'
import { policyFrom } from '#road/policy.ts'
import type { SubjectId } from '#road/subject.ts'
import { theRoad } from '#road/the-road.ts'
import { recallExtent } from '#road/tracing/recall-extent.ts'
import { trace } from '#road/tracing/trace.ts'
import { type BigRecord, makeBigRecord, site } from './big-record.ts'
import { type BenchRow, percentile } from './measure.ts'

/*
 * Latency of a trace back from a wound and of a recall's extent, against SQL written by hand for
 * exactly this question on the same file. Both must find the same subjects.
 */

const sizes = (process.env['BENCH_ROUNDS'] ?? '10000,100000,1000000').split(',').map(Number)
const runs = 5

export async function tracingBench(): Promise<readonly BenchRow[]> {
  const rows: BenchRow[] = []
  for (const size of sizes) rows.push(...(await atSize(size)))
  return rows
}

async function atSize(rounds: number): Promise<readonly BenchRow[]> {
  const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-bench-'))
  try {
    const record = await makeBigRecord(join(folder, 'big.sqlite'), rounds)
    const journal = await openJournal({
      at: { kind: 'sqlite', file: record.file },
      road: theRoad,
      now: () => instant(Date.now()),
    })
    const sql = new DatabaseSync(record.file, { readOnly: true })
    const label = `${rounds.toLocaleString('en')} rounds, ${(record.links / rounds).toFixed(1)} links each`
    const rows = await measure(journal.read(SiteId.parse(site)), sql, record, label)
    sql.close()
    await journal.close()
    return rows
  } finally {
    rmSync(folder, { recursive: true })
  }
}

async function measure(
  look: Reader,
  sql: DatabaseSync,
  record: BigRecord,
  label: string,
): Promise<readonly BenchRow[]> {
  const policy = policyFrom(undefined)
  const byHand = handWritten(sql)
  const questions = [
    {
      name: 'trace back from a wound',
      subjects: record.wounds,
      ours: async (subject: SubjectId) =>
        new Set((await trace(look, subject, 'back')).nodes.map((node) => node.subject)),
      hand: (subject: SubjectId) => byHand.traceBack(subject),
    },
    {
      name: 'recall extent',
      subjects: record.recalls,
      ours: async (subject: SubjectId) => {
        const extent = await recallExtent(look, subject as SubjectId<'recall'>, policy)
        return new Set<SubjectId>(extent?.packs.map((pack) => pack.round))
      },
      hand: (subject: SubjectId) => byHand.recallPacks(subject),
    },
  ]
  const rows: BenchRow[] = []
  for (const { name, subjects, ours, hand } of questions) {
    const ratios: number[] = []
    const p50: number[] = []
    const p99: number[] = []
    const handP50: number[] = []
    for (let run = 0; run < runs; run += 1) {
      const mine: number[] = []
      const theirs: number[] = []
      for (const subject of subjects) {
        const started = performance.now()
        const found = await ours(subject)
        const between = performance.now()
        const expected = hand(subject)
        const ended = performance.now()
        mine.push(between - started)
        theirs.push(ended - between)
        expected.delete(subject)
        found.delete(subject)
        assert.deepEqual(
          [...found].sort(),
          [...expected].sort(),
          `${name} from ${subject} differs from the SQL by hand`,
        )
      }
      const sorted = mine.toSorted((a, b) => a - b)
      const handSorted = theirs.toSorted((a, b) => a - b)
      p50.push(percentile(sorted, 50))
      p99.push(percentile(sorted, 99))
      handP50.push(percentile(handSorted, 50))
      ratios.push(percentile(sorted, 50) / percentile(handSorted, 50))
    }
    const row = (what: string, unit: string, figures: number[]): BenchRow => {
      const sorted = figures.toSorted((a, b) => a - b)
      return {
        name: `${name}, ${what}`,
        unit,
        median: percentile(sorted, 50),
        min: percentile(sorted, 0),
        max: percentile(sorted, 100),
        runs,
        note: `${label}; ${subjects.length} subjects`,
      }
    }
    rows.push(
      row('p50', 'ms', p50),
      row('p99', 'ms', p99),
      row('SQL by hand, p50', 'ms', handP50),
      row('ratio of p50', 'times', ratios),
    )
  }
  return rows
}

function handWritten(sql: DatabaseSync): {
  traceBack: (wound: SubjectId) => Set<SubjectId>
  recallPacks: (recall: SubjectId) => Set<SubjectId>
} {
  const traceBack = sql.prepare(`
    WITH c AS (SELECT to_subject AS s FROM link WHERE site = '${site}' AND from_subject = ?1 AND relation = 'woundOf'),
    r AS (SELECT l.from_subject AS s FROM link l JOIN c ON l.to_subject = c.s WHERE l.site = '${site}' AND l.relation = 'openedFor'),
    one AS (SELECT l.relation, l.to_subject AS s FROM link l JOIN r ON l.from_subject = r.s WHERE l.site = '${site}' AND l.relation <> 'openedFor'),
    two AS (SELECT l.to_subject AS s FROM link l JOIN (SELECT DISTINCT s FROM one WHERE relation IN ('inLoad', 'washedIn')) o
            ON l.from_subject = o.s WHERE l.site = '${site}'),
    surgeons AS (SELECT l.to_subject AS s FROM link l JOIN c ON l.from_subject = c.s WHERE l.site = '${site}' AND l.relation = 'by'),
    failures AS (SELECT l.from_subject AS s FROM link l JOIN (SELECT DISTINCT s FROM one WHERE relation = 'inLoad') o
                 ON l.to_subject = o.s WHERE l.site = '${site}' AND l.relation = 'recalls')
    SELECT k.subject, k.standing, k.state FROM known k JOIN (
      SELECT s FROM c UNION SELECT s FROM r UNION SELECT s FROM one UNION SELECT s FROM two UNION SELECT s FROM surgeons UNION SELECT s FROM failures
    ) found ON k.subject = found.s WHERE k.site = '${site}'`)
  const failedLoad =
    sql.prepare(`SELECT l.to_subject AS load, k.since AS at FROM link l JOIN known k ON k.site = l.site AND k.subject = l.to_subject
    WHERE l.site = '${site}' AND l.from_subject = ?1 AND l.relation = 'recalls'`)
  const lastGood = sql.prepare(`SELECT l.at FROM link l JOIN known k ON k.site = l.site AND k.subject = l.from_subject
    WHERE l.site = '${site}' AND l.to_subject = 'machine:steam' AND l.relation = 'ranOn' AND l.at < ?1
    AND json_extract(k.state, '$.biological[0].result') = 'noGrowth' ORDER BY l.at DESC LIMIT 1`)
  const proven = sql.prepare(`SELECT l.at FROM link l JOIN known k ON k.site = l.site AND k.subject = l.from_subject
    WHERE l.site = '${site}' AND l.to_subject = 'machine:steam' AND l.relation = 'ranOn' AND l.at > ?1
    AND json_extract(k.state, '$.biological[0].result') = 'noGrowth' ORDER BY l.at LIMIT 3`)
  const packs = sql.prepare(`SELECT p.from_subject AS round, k.state FROM link l
    JOIN link p ON p.site = l.site AND p.to_subject = l.from_subject AND p.relation = 'inLoad'
    JOIN known k ON k.site = p.site AND k.subject = p.from_subject
    WHERE l.site = '${site}' AND l.to_subject = 'machine:steam' AND l.relation = 'ranOn' AND l.at > ?1 AND l.at < ?2`)
  return {
    traceBack: (wound) => new Set(traceBack.all(wound).map((row) => String(row['subject']) as SubjectId)),
    recallPacks(recall) {
      const failure = failedLoad.get(recall)
      const at = String(failure?.['at'])
      const from = String(lastGood.get(at)?.['at'] ?? '')
      const until = String(proven.all(at).at(2)?.['at'] ?? '9999')
      return new Set(packs.all(from, until).map((row) => String(row['round']) as SubjectId))
    },
  }
}
