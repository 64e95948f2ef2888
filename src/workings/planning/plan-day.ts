import { invariant } from '#units/invariant.ts'
import { checkPlan } from './check-plan.ts'
import { explainNoPlan, type PlanRelief } from './explain-no-plan.ts'
import type { PlanInstance } from './instance.ts'
import { type PlanBound, planBound } from './plan-bound.ts'
import { modelOf } from './plan-model.ts'
import { objectiveOf } from './plan-objective.ts'
import { compareObjectives, type PlanObjective, type PlanSchedule } from './plan-schedule.ts'
import { scheduleOf } from './schedule-of-choices.ts'
import { type FoundPlan, searchPlan } from './search-plan.ts'

/**
 * The plan of a day, or why there is none. `optimal`: no plan is better. `feasible`: the bound says how much better one could
 * be at most. `infeasible`: proven that there is none. `unknown`: none was found, and nothing proves that there is none.
 */
export type PlanAnswer =
  | {
      readonly status: 'optimal' | 'feasible'
      readonly objective: PlanObjective
      readonly bound: PlanObjective
      readonly schedule: PlanSchedule
    }
  | {
      readonly status: 'infeasible' | 'unknown'
      readonly objective: null
      readonly bound: PlanObjective | null
      readonly schedule: null
      readonly reasons: readonly string[]
      readonly reliefs: readonly PlanRelief[]
    }

export interface PlanDay {
  readonly seed: number
  /** Decodes that may be spent: the same number and seed give the same plan on every machine. */
  readonly decodes: number
  /** Asked now and then whether time is up. */
  readonly stop?: (() => boolean) | undefined
  /** Each better plan as soon as it is found, checked. */
  readonly onBetter?: ((answer: PlanAnswer) => void) | undefined
  /** Its bound, when it was worked out before. */
  readonly proven?: PlanBound | undefined
}

/** Plans a day: a bound, a search that ends when the bound is reached, and for a day that cannot be, the reasons. */
export function planDay(day: PlanInstance, { seed, decodes, stop, onBetter, ...known }: PlanDay): PlanAnswer {
  const model = modelOf(day)
  const proven = known.proven ?? planBound(model)
  if (proven.kind === 'infeasible') return noPlan(day, { status: 'infeasible', bound: null }, seed)
  const { bound, order } = proven
  const answerOf = (found: FoundPlan): PlanAnswer => {
    const schedule = scheduleOf(model, found.choices)
    const status = compareObjectives(found.objective, bound) <= 0 ? 'optimal' : 'feasible'
    return shownPlan(day, { status, objective: found.objective, bound, schedule })
  }
  const found = searchPlan(model, {
    seed,
    decodes,
    stop,
    goal: bound,
    order,
    onBetter: (better) => {
      if (better.broken === 0) onBetter?.(answerOf(better))
    },
  })
  return found.broken === 0 ? answerOf(found) : noPlan(day, { status: 'unknown', bound }, seed)
}

/** A plan is shown only when the checker, which shares no code with the search, finds nothing broken and counts the same. */
export function shownPlan(
  day: PlanInstance,
  answer: Extract<PlanAnswer, { readonly objective: PlanObjective }>,
): PlanAnswer {
  const broken = checkPlan(day, answer.schedule)
  invariant(broken.length === 0, `a plan breaks its rules: ${broken.join('; ')}`)
  const counted = objectiveOf(day, answer.schedule)
  invariant(compareObjectives(counted, answer.objective) === 0, 'a plan counts otherwise than it was searched')
  return answer
}

function noPlan(
  day: PlanInstance,
  { status, bound }: { readonly status: 'infeasible' | 'unknown'; readonly bound: PlanObjective | null },
  seed: number,
): PlanAnswer {
  const { reasons, reliefs } = explainNoPlan(day, seed)
  return { status, objective: null, bound, schedule: null, reasons, reliefs }
}
