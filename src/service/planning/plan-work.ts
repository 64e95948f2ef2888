import { bindingResource, type BindingResource } from '#workings/planning/binding-resource.ts'
import { type FollowedOrder, followOrder, type GivenOrder } from '#workings/planning/follow-order.ts'
import type { PlanInstance } from '#workings/planning/instance.ts'
import { type OtherPlace, otherPlaces } from '#workings/planning/other-places.ts'
import { planChanges, type PlanChange } from '#workings/planning/plan-changes.ts'
import type { PlanAnswer } from '#workings/planning/plan-day.ts'
import type { PlanSchedule } from '#workings/planning/plan-schedule.ts'
import { replanDay, type Replanned } from '#workings/planning/replan-day.ts'
import { type SetSlack, setSlacks } from '#workings/planning/set-slacks.ts'
import { type CaseHold, whatHolds } from '#workings/planning/what-holds.ts'

/** What is asked beside a plan: why it is so, an order of somebody's own held against it, the kept plan changed least. */
export interface PlanTask {
  readonly instance: PlanInstance
  readonly plan: PlanAnswer
  readonly seed: number
  readonly order?: GivenOrder | undefined
  readonly kept?: PlanSchedule['cases'] | undefined
}

/** Why a plan is as it is. */
export interface PlanWhy {
  readonly slacks: readonly SetSlack[]
  readonly holds: readonly CaseHold[]
  readonly binding: BindingResource
  /** Every other place of each case; null where another plan of the same answer is the one to look at. */
  readonly others: readonly OtherPlace[] | null
}

export interface PlanWork {
  /** Null when there is no plan. */
  readonly why: PlanWhy | null
  /** The order that was given, held against the plan: `against` is null when there is no plan to compare with. */
  readonly given: (FollowedOrder & { readonly why: PlanWhy | null; readonly against: Against | null }) | null
  readonly replanned: (Replanned & { readonly why: PlanWhy | null }) | null
}

interface Against {
  readonly inversions: number
  readonly overtime: number
  readonly occupied: number
  readonly changes: readonly PlanChange[]
}

/** Decodes for the other places of all cases, and how many places are looked at. */
const effort = { decodes: 6000, seed: 1, most: 400 } as const

/**
 * Explains a plan, and arranges what was asked for beside it. The other places of its cases cost far more than the rest:
 * they are looked at for one plan only, the order that was given, else the one planned again, else the best.
 */
export function planWork({ instance, plan, seed, order, kept }: PlanTask): PlanWork {
  const given = order === undefined ? null : followOrder(instance, order, 4000, seed)
  const again = kept === undefined ? null : replanDay(instance, kept, { seed, decodes: 60_000 })
  const lookedAt = given ?? again ?? plan
  const why = (of: WithPlan): PlanWhy => whyOf(instance, of, of === lookedAt)
  return {
    why: plan.schedule === null ? null : why(plan),
    given: given === null ? null : { ...given, why: isWhole(given) ? why(given) : null, against: against(plan, given) },
    replanned: again === null ? null : { ...again, why: isWhole(again) ? why(again) : null },
  }
}

type WithPlan = Parameters<typeof otherPlaces>[1]

function whyOf(day: PlanInstance, plan: WithPlan, withOthers: boolean): PlanWhy {
  return {
    slacks: setSlacks(day, plan.schedule),
    holds: whatHolds(day, plan.schedule),
    binding: bindingResource(day, plan.schedule),
    others: withOthers ? otherPlaces(day, plan, effort) : null,
  }
}

function isWhole({ never }: FollowedOrder): boolean {
  return never.length === 0
}

function against(plan: PlanAnswer, given: FollowedOrder): Against | null {
  if (plan.schedule === null) return null
  return {
    inversions: given.objective.inversions - plan.objective.inversions,
    overtime: given.objective.overtime - plan.objective.overtime,
    occupied: given.objective.occupied - plan.objective.occupied,
    changes: planChanges(plan.schedule.cases, given.schedule.cases),
  }
}
