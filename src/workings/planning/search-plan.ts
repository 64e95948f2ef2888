import { type SeededGenerator, seededGenerator } from '../statistics/special/seeded-generator.ts'
import { type Decoded, decodePlan, type PlanChoices } from './decode-plan.ts'
import { firstChoices, movedChoices } from './plan-choices.ts'
import type { PlanModel } from './plan-model.ts'
import { compareObjectives, type PlanObjective } from './plan-schedule.ts'
import { scheduleOf } from './schedule-of-choices.ts'
import { keptTooLong } from './treat-late.ts'

/** The best plan so far, and how it was counted. */
export interface FoundPlan {
  readonly choices: PlanChoices
  readonly objective: PlanObjective
  /** Minutes by which it breaks an hour, a latest start or how long something keeps; zero for a plan that can be shown. */
  readonly broken: number
  /** Sum of the starts: of two plans that count the same, the one with more room is the better one to go on from. */
  readonly starts: number
}

export interface PlanSearch {
  readonly seed: number
  /** How many decodes may be spent: the same number and seed give the same plan on every machine. */
  readonly decodes: number
  /** Asked now and then whether to stop early, as when time is up. */
  readonly stop?: (() => boolean) | undefined
  readonly onBetter?: ((found: FoundPlan) => void) | undefined
  /** Stops as soon as this is reached: nothing can be better. */
  readonly goal?: PlanObjective | undefined
  /** Stops at the first plan that breaks nothing. */
  readonly anyPlan?: boolean | undefined
  /** An order to begin with. */
  readonly order?: readonly number[] | undefined
}

const minute = 1_000_000
const roundFirst = 10_000
const roundMost = 80_000

/**
 * Simulated annealing over order, theatre, waits, holds, turns and routes, in rounds that grow: the hot ones look for
 * another kind of day, every third goes on from the best at a low heat.
 */
export function searchPlan(model: PlanModel, search: PlanSearch): FoundPlan {
  const dice = seededGenerator(search.seed)
  let best = evaluatePlan(model, firstChoices(model))
  if (search.order !== undefined && search.order.length > 0) {
    const other = evaluatePlan(model, firstChoices(model, search.order))
    if (costOf(other) < costOf(best)) best = other
  }
  search.onBetter?.(best)
  let left = search.decodes
  for (let round = 0; left > 0 && !isDone(best, search); round += 1) {
    const share = Math.min(left, roundFirst * 2 ** Math.floor(round / 3), roundMost)
    best = anneal(model, dice, best, { share, hot: round % 3 === 0 ? 5 * minute : 60 * minute }, search)
    left -= share
  }
  return best
}

function isDone(best: FoundPlan, { stop, goal, anyPlan }: PlanSearch): boolean {
  if (stop?.() === true) return true
  if (best.broken > 0) return false
  return anyPlan === true || (goal !== undefined && compareObjectives(best.objective, goal) <= 0)
}

function anneal(
  model: PlanModel,
  dice: SeededGenerator,
  from: FoundPlan,
  { share, hot }: { readonly share: number; readonly hot: number },
  search: PlanSearch,
): FoundPlan {
  let best = from
  let here = from
  let cost = roughCostOf(here)
  let bestCost = costOf(best)
  const cold = minute / 5
  for (let step = 0; step < share; step += 1) {
    if ((step & 63) === 0 && isDone(best, search)) break
    const heat = hot * (cold / hot) ** (step / share)
    const next = evaluatePlan(model, movedChoices(model, here.choices, dice))
    const nextCost = roughCostOf(next)
    if (nextCost <= cost || dice.next() < Math.exp((cost - nextCost) / heat)) {
      here = next
      cost = nextCost
    }
    const exact = costOf(next)
    if (exact < bestCost) {
      best = next
      bestCost = exact
      search.onBetter?.(best)
    }
  }
  return best
}

/** One number for the lexicographic objective; a broken hour weighs more than any of it. */
function costOf({ objective, broken }: FoundPlan): number {
  return broken * 1e11 + objective.inversions * 1e10 + objective.overtime * minute + objective.occupied * 100
}

/** The cost with a slope where many plans cost the same: earlier starts leave room. */
function roughCostOf(found: FoundPlan): number {
  return costOf(found) + found.starts * (minute / 5)
}

/** Decodes choices and counts the day that they give. */
export function evaluatePlan(model: PlanModel, choices: PlanChoices): FoundPlan {
  const decoded = decodePlan(model, choices)
  let starts = 0
  for (const start of decoded.start) starts += start
  // Seldom there is something that may not be stored: only then is the day written down to see how long it lies. It counts
  // in a day that breaks an hour too: otherwise breaking one would be cheaper than letting something lie.
  const lies = model.someKeep ? keptTooLong(model.day, scheduleOf(model, choices)) : 0
  return { choices, objective: countObjective(model, choices, decoded), broken: decoded.broken + lies, starts }
}

function countObjective(model: PlanModel, choices: PlanChoices, { start }: Decoded): PlanObjective {
  const { theatres } = model.day
  const last = theatres.map(() => -1)
  const used: number[][] = theatres.map(() => [])
  for (const [one, facts] of model.cases.entries()) {
    const theatre = choices.theatre[one] ?? 0
    last[theatre] = Math.max(last[theatre] ?? -1, (start[one] ?? 0) + facts.dur)
    used[theatre]?.push(one)
  }
  let inversions = 0
  let overtime = 0
  let occupied = 0
  for (const [index, theatre] of theatres.entries()) {
    const own = used[index] ?? []
    if (own.length === 0) continue
    for (const a of own)
      for (const b of own)
        if ((start[a] ?? 0) < (start[b] ?? 0) && (model.cases[a]?.rank ?? 0) > (model.cases[b]?.rank ?? 0))
          inversions += 1
    overtime += Math.max(0, (last[index] ?? 0) - theatre.close)
    occupied += (last[index] ?? 0) - theatre.open
  }
  return { inversions, overtime, occupied }
}
