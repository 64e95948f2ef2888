import assert from 'node:assert/strict'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { performance } from 'node:perf_hooks'
import { PlanInstance } from '#workings/planning/instance.ts'
import { planDay } from '#workings/planning/plan-day.ts'
import { type BenchRow, rowOf } from './measure.ts'

const folder = join(import.meta.dirname, '../tests/reference/plans')
const seeds = [1, 2, 3]

/** Milliseconds to the first plan, and what two seconds find on a theatre, two and four. */
export async function planBench(): Promise<readonly BenchRow[]> {
  const rows: BenchRow[] = []
  for (const name of ['A2', 'B1', 'C1']) {
    const { instance } = JSON.parse(readFileSync(join(folder, `${name}.json`), 'utf8')) as { instance: unknown }
    const day = PlanInstance.parse(instance)
    rows.push(
      await rowOf(`first plan of ${name}, ${day.theatres.length} theatres`, 'ms', seeds.length, (run) => {
        const started = performance.now()
        const answer = planDay(day, { seed: run + 2, decodes: 64 })
        assert.notEqual(answer.schedule, null)
        return performance.now() - started
      }),
      await rowOf(`overtime found in 2 s for ${name}`, 'min', seeds.length, (run) => {
        const until = performance.now() + 2000
        const answer = planDay(day, { seed: run + 2, decodes: 10_000_000, stop: () => performance.now() > until })
        return answer.objective?.overtime ?? Number.NaN
      }),
    )
  }
  return rows
}
