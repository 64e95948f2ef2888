import assert from 'node:assert/strict'
import { performance } from 'node:perf_hooks'
import { planInBackground } from '#service/planning/plan-in-background.ts'
import { constraintSolver } from '#service/solver/constraint-solver.ts'
import type { Solved } from '#service/solver/solve-message.ts'
import type { ConstraintModel } from '#workings/constraints/constraint-model.ts'
import type { PlanInstance } from '#workings/planning/instance.ts'
import { modelOf } from '#workings/planning/plan-model.ts'
import type { PlanObjective } from '#workings/planning/plan-schedule.ts'
import { occupiedWeight, planProgram } from '#workings/planning/program/plan-program.ts'
import { type BenchRow, summarise } from './measure.ts'
import { type DayClass, seededDay } from './plan-days.ts'

/*
 * Search and proof together against the general solver alone, which gets the whole day as one model and no plan to beat. Both
 * in one run on the same seeded days, one after the other. What was not reached in the time counts as the whole time.
 */

const seeds = Array.from({ length: 10 }, (_, index) => index + 1)
const secondsFor: Readonly<Record<DayClass, number>> = { '1 × 6': 10, '2 × 6': 20, '4 × 8': 15 }
const gapsAt: Readonly<Record<DayClass, readonly number[]>> = { '1 × 6': [1], '2 × 6': [2, 5], '4 × 8': [2, 5, 15] }

interface DayRun {
  readonly first: number
  readonly proof: number
  readonly isProven: boolean
  /** Minutes of overtime above the bound, at each time asked for. */
  readonly gaps: readonly number[]
}

export async function provePlanBench(): Promise<readonly BenchRow[]> {
  const rows: BenchRow[] = []
  for (const kind of ['1 × 6', '2 × 6', '4 × 8'] as const) {
    const together: DayRun[] = []
    const alone: DayRun[] = []
    for (const seed of seeds) {
      const day = seededDay(kind, seed)
      together.push(await searchAndProve(day, kind))
      alone.push(await solverAlone(day, kind))
      console.log(`  ${kind} ${seed}: ${told(together.at(-1))}; solver alone ${told(alone.at(-1))}`)
    }
    rows.push(...rowsOf(kind, 'search and proof', together), ...rowsOf(kind, 'solver alone', alone))
    for (const [index, seconds] of gapsAt[kind].entries())
      rows.push(
        summarise(
          `${kind}: overtime that a better plan could save, after ${seconds} s`,
          'min',
          together.map(({ gaps }) => gaps[index] ?? Number.NaN),
          'search and proof',
        ),
      )
  }
  return rows
}

function told(run: DayRun | undefined): string {
  return run === undefined
    ? ''
    : `first ${run.first.toFixed(2)} s, ${run.isProven ? 'proven' : 'open'} ${run.proof.toFixed(2)} s`
}

function rowsOf(kind: DayClass, who: string, runs: readonly DayRun[]): readonly BenchRow[] {
  const proven = runs.filter(({ isProven }) => isProven).length
  const note = `${proven} of ${runs.length} proven within ${secondsFor[kind]} s`
  return [
    summarise(
      `${kind}: first plan, ${who}`,
      's',
      runs.map(({ first }) => first),
    ),
    summarise(
      `${kind}: proof, ${who}`,
      's',
      runs.map(({ proof }) => proof),
      note,
    ),
  ]
}

async function searchAndProve(day: PlanInstance, kind: DayClass): Promise<DayRun> {
  const started = performance.now()
  const now = (): number => (performance.now() - started) / 1000
  const seconds = secondsFor[kind]
  const told: { readonly at: number; readonly gap: number }[] = []
  const answer = await planInBackground(day, {
    seconds,
    seed: 1,
    onPlan: ({ objective, bound }) => told.push({ at: now(), gap: gapOf(objective, bound) }),
  })
  assert.notEqual(answer.status, 'unknown')
  told.push({ at: now(), gap: gapOf(answer.objective, answer.bound) })
  return {
    first: told[0]?.at ?? seconds,
    proof: Math.min(now(), seconds),
    isProven: answer.status !== 'feasible',
    gaps: gapsAt[kind].map((at) => told.findLast((each) => each.at <= at + 0.5)?.gap ?? Number.NaN),
  }
}

function gapOf(objective: PlanObjective | null, bound: PlanObjective | null): number {
  return (objective?.overtime ?? Number.NaN) - (bound?.overtime ?? 0)
}

/** Seconds in which the solver alone is asked for any plan. */
const firstSeconds = 5

/**
 * The time to a first plan is not told by the solver while it works: one is asked for any plan, and another for the best. Both
 * are timed from their start, loading included, as search and proof are: whoever asks for a plan waits for all of it.
 */
async function solverAlone(day: PlanInstance, kind: DayClass): Promise<DayRun> {
  const model = modelOf(day)
  const minutes = occupiedWeight(model)
  const most = { inversions: 0, overtime: minutes, occupied: minutes }
  const seconds = secondsFor[kind]
  const began = performance.now()
  const { constraints } = planProgram(model, { line: 'loads', goal: 'minutes', most })
  const any = await solved({ ...constraints, minimise: [] }, firstSeconds)
  const first = any.kind === 'optimal' ? (performance.now() - began) / 1000 : firstSeconds
  const asked = performance.now()
  const best = await solved(planProgram(model, { line: 'loads', goal: 'minutes', most }).constraints, seconds)
  const proof = Math.min((performance.now() - asked) / 1000, seconds)
  return { first, proof, isProven: best.kind === 'optimal', gaps: [] }
}

async function solved(constraints: ConstraintModel, seconds: number): Promise<Solved> {
  const solver = constraintSolver()
  try {
    return await solver.solve(constraints, { seconds, seed: 1, workers: 1 })
  } finally {
    await solver.close()
  }
}
