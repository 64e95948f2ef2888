import type { PlanModel } from '#workings/planning/plan-model.ts'
import type { PlanStanding } from '#workings/planning/plan-standing.ts'
import { drawFreed, neighbourhood } from '#workings/planning/program/neighbourhood.ts'
import { occupiedWeight, type PlanProgram, planProgram } from '#workings/planning/program/plan-program.ts'
import { readProgram } from '#workings/planning/program/read-program.ts'
import { solutionOfPlan } from '#workings/planning/program/solution-of-plan.ts'
import { type SeededGenerator, seededGenerator } from '#workings/statistics/special/seeded-generator.ts'
import type { ConstraintSolver } from '../solver/constraint-solver.ts'
import type { ProofLimits } from './proof-limits.ts'

/** Seconds by the clock, or work, that one neighbourhood may take. */
const secondsEach = 3
const workEach = 1

/**
 * Large neighbourhood search: sets some hours, lists or sets of the best plan free, holds the rest in its order, and lets the
 * solver look for a better plan there; more is set free when a neighbourhood was searched to its end, less when it was not.
 * @param rounds how many neighbourhoods to look at most.
 */
export async function improvePlan(
  model: PlanModel,
  standing: PlanStanding,
  solver: ConstraintSolver,
  limits: ProofLimits,
  rounds = Number.POSITIVE_INFINITY,
): Promise<void> {
  const dice = seededGenerator(limits.seed)
  let size = 0.12
  for (let round = 0; round < rounds && !standing.isProven && limits.secondsLeft() > 0.1; round += 1) {
    const wholly = await lookAround(model, standing, { solver, limits, dice, size })
    if (wholly === null) return
    size = Math.min(1, Math.max(0.05, size * (wholly ? 1.1 : 0.85)))
  }
}

interface Look {
  readonly solver: ConstraintSolver
  readonly limits: ProofLimits
  readonly dice: SeededGenerator
  readonly size: number
}

/** Searches one neighbourhood; whether to its end. Null when the best plan cannot be written as a solution. */
async function lookAround(
  model: PlanModel,
  standing: PlanStanding,
  { solver, limits, dice, size }: Look,
): Promise<boolean | null> {
  const { best } = standing
  if (best === undefined) return null
  const { inversions, overtime, occupied } = best.objective
  const any = occupiedWeight(model)
  const minutes = overtime * any + occupied
  const most = { inversions, overtime, occupied: any }
  const values = solutionOfPlan(planOf(model, most, minutes), best.schedule)
  if (values === null) return null
  const program = planOf(model, most, minutes - 1)
  const freed = drawFreed(program, values, dice, size)
  const { seed, work, signal } = limits
  const solved = await solver.solve(
    neighbourhood(program, values, freed),
    {
      seconds: Math.min(limits.secondsLeft(), work === undefined ? secondsEach : Number.MAX_SAFE_INTEGER),
      work: work === undefined ? undefined : workEach,
      seed,
      workers: 1,
    },
    signal,
  )
  if (solved.kind === 'optimal' || solved.kind === 'found') {
    if (standing.offer(readProgram(program, solved.values))) limits.onPlan()
  }
  return solved.kind === 'optimal' || solved.kind === 'impossible'
}

function planOf(model: PlanModel, most: PlanStanding['bound'], mostMinutes: number): PlanProgram {
  return planProgram(model, { line: 'loads', goal: 'minutes', most, mostMinutes })
}
