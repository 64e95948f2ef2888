import assert from 'node:assert/strict'
import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { monitorEventLoopDelay } from 'node:perf_hooks'
import { z } from 'zod'
import { computeInWorkers } from '#service/compute/compute.ts'
import { rankExposures } from '#workings/statistics/exposure-ranking/rank-exposures.ts'
import { RankingInput } from '#workings/statistics/exposure-ranking/ranking-input.ts'
import { seededGenerator } from '#workings/statistics/special/seeded-generator.ts'
import { type BenchRow, summarise, timed } from './measure.ts'

/*
 * Ranking of a long line list on one core: 10,000 cases of a year with three procedures, 2 % infected, 500 exposures of which
 * each case met 20; one of them raises the risk fourfold and must be found. Time of the whole ranking, and the memory it took at most;
 * the same figures by a plain script of R, where R is installed; and how long the thread that answers requests stood
 * still while a worker ranked.
 */

const caseCount = 10_000
const exposureCount = 500
const metByEach = 20
const permutations = 9999
const runs = 3
const note = '10,000 cases, 500 exposures, 9,999 shuffles in 36 strata, one core'

export async function exposureRankingBench(): Promise<readonly BenchRow[]> {
  const seconds: number[] = []
  const megabytes: number[] = []
  const inR: RFigures[] = []
  for (let run = 0; run < runs; run += 1) {
    const input = RankingInput.parse({ cases: lineList(run + 1), permutations, seed: run })
    const before = process.memoryUsage().rss
    let result: ReturnType<typeof rankExposures> | undefined
    seconds.push((await timed(() => (result = rankExposures(input)))) / 1000)
    megabytes.push(Math.max(0, process.memoryUsage().rss - before) / 2 ** 20)
    const first = result?.ranked[0]
    assert.equal(first?.name, 'load 0')
    const other = rankInR(input)
    if (other === undefined) continue
    // The same first exposure, with the same exact p.
    assert.equal(other.first, 0)
    assert.ok(Math.abs(other.p / first.p - 1) < 1e-5, `${other.p} in R, ${first.p} here`)
    inR.push(other)
  }
  const held = process.resourceUsage().maxRSS / 1024
  return [
    summarise('exposure-ranking', 's', seconds, note),
    summarise('memory it added', 'MB', megabytes, 'resident set after the ranking, less before'),
    summarise('memory of the whole process at most', 'MB', [held], 'line list and bench included'),
    ...rowsOfR(inR, seconds),
    await standstill(),
  ]
}

function rowsOfR(inR: readonly RFigures[], seconds: readonly number[]): readonly BenchRow[] {
  if (inR.length === 0) return []
  return [
    summarise(
      'the same in plain R',
      's',
      inR.map((each) => each.seconds),
      'bench/exposure-ranking.R: exact p and step-down min-P only, reading left aside',
    ),
    summarise(
      'plain R, memory of the whole process at most',
      'MB',
      inR.map((each) => each.megabytes),
      'high water mark',
    ),
    summarise(
      'plain R against exposure-ranking',
      'times',
      inR.map((each, run) => each.seconds / (seconds[run] ?? Number.NaN)),
      'within one run',
    ),
  ]
}

/** The longest that the thread which answers requests stood still while a worker ranked. */
async function standstill(): Promise<BenchRow> {
  const compute = computeInWorkers({ workers: 1, secondsAllowed: 120 })
  const figures: number[] = []
  try {
    for (let run = 0; run < runs; run += 1) {
      const input = RankingInput.parse({ cases: lineList(run + 1), permutations, seed: run })
      const delay = monitorEventLoopDelay({ resolution: 1 })
      delay.enable()
      await compute.run({ kind: 'rankExposures', input })
      delay.disable()
      figures.push(delay.max / 1e6)
    }
  } finally {
    await compute.close()
  }
  return summarise(
    'longest standstill of the answering thread meanwhile',
    'ms',
    figures,
    'the ranking runs in a worker',
  )
}

const RFigures = z.object({ seconds: z.number(), megabytes: z.number(), first: z.int(), p: z.number() })
type RFigures = z.infer<typeof RFigures>

/** The same ranking by the script; undefined where there is no R. */
function rankInR({ cases }: RankingInput): RFigures | undefined {
  const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-bench-'))
  try {
    const file = join(folder, 'cases.csv')
    const strata = [...new Set(cases.map(stratumOf))]
    const lines = cases.map((one) => {
      const met = new Set(one.exposures.map(({ id }) => Number(id)))
      const columns = Array.from({ length: exposureCount }, (_, id) => Number(met.has(id)))
      return [strata.indexOf(stratumOf(one)), Number(one.infected), ...columns].join(',')
    })
    writeFileSync(file, `${lines.join('\n')}\n`)
    const script = join(import.meta.dirname, 'exposure-ranking.R')
    const done = spawnSync('Rscript', [script, file, String(permutations)], { encoding: 'utf8' })
    if (done.error !== undefined) return undefined
    assert.equal(done.status, 0, done.stderr)
    return RFigures.parse(JSON.parse(done.stdout))
  } finally {
    rmSync(folder, { recursive: true })
  }
}

function stratumOf({ date, procedure }: RankingInput['cases'][number]): string {
  return `${date.slice(0, 7)} ${procedure ?? ''}`
}

function lineList(seed: number) {
  const random = seededGenerator(seed)
  return Array.from({ length: caseCount }, (_, index) => {
    const met = new Set<number>()
    while (met.size < metByEach) met.add(random.below(exposureCount))
    const risk = met.has(0) ? 0.08 : 0.02
    return {
      id: `C${index}`,
      date: `2026-${String(1 + random.below(12)).padStart(2, '0')}-15`,
      procedure: `procedure ${random.below(3)}`,
      infected: random.next() < risk,
      exposures: Array.from(met, (id) => ({ type: 'load', id: String(id) })),
    }
  })
}
