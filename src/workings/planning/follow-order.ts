import { seededGenerator } from '../statistics/special/seeded-generator.ts'
import { checkPlan } from './check-plan.ts'
import type { PlanChoices } from './decode-plan.ts'
import type { PlanInstance } from './instance.ts'
import { firstChoices, movedChoices } from './plan-choices.ts'
import { modelOf, type PlanModel } from './plan-model.ts'
import { objectiveOf } from './plan-objective.ts'
import { compareObjectives, type PlanObjective, type PlanSchedule } from './plan-schedule.ts'
import { scheduleOf } from './schedule-of-choices.ts'
import { evaluatePlan, type FoundPlan } from './search-plan.ts'

/** Cases in the order in which they are to be done, each in its theatre. */
export type GivenOrder = readonly { readonly case: string; readonly theatre: string }[]

/** A day in a given order: when everything is then, what that breaks, and what it counts. */
export interface FollowedOrder {
  readonly schedule: PlanSchedule
  readonly objective: PlanObjective
  /** What the checker finds, in words; empty for a sound plan. */
  readonly broken: readonly string[]
  /** Cases that never begin: their sets are not to be had. */
  readonly never: readonly string[]
}

/** Decodes an order that a person gave. Order and theatres are kept; only waits and the line are arranged, a little. */
export function followOrder(day: PlanInstance, order: GivenOrder, tries: number, seed: number): FollowedOrder {
  const model = modelOf(day)
  return followedOf(model, arranged(model, choicesOf(model, order), { tries, seed }))
}

/** The choices that give an order; the cases that it leaves out come last. */
export function choicesOf(model: PlanModel, order: GivenOrder): PlanChoices {
  const { day } = model
  const places = order.flatMap((row) => {
    const at = day.cases.findIndex(({ id }) => id === row.case)
    return at < 0 ? [] : [{ at, theatre: day.theatres.findIndex(({ id }) => id === row.theatre) }]
  })
  const first = firstChoices(
    model,
    places.map(({ at }) => at),
  )
  const theatre = Int16Array.from(first.theatre)
  for (const place of places) if (place.theatre >= 0) theatre[place.at] = place.theatre
  return { ...first, theatre }
}

/** Tries other waits, holds, turns and routes under the same order, and keeps what is better. */
export function arranged(
  model: PlanModel,
  choices: PlanChoices,
  { tries, seed }: { readonly tries: number; readonly seed: number },
): FoundPlan {
  const dice = seededGenerator(seed)
  const { order, theatre } = choices
  let best = evaluatePlan(model, choices)
  for (let time = 0; time < tries; time += 1) {
    const next = evaluatePlan(model, { ...movedChoices(model, best.choices, dice), order, theatre })
    if (
      next.broken < best.broken ||
      (next.broken === best.broken && compareObjectives(next.objective, best.objective) <= 0)
    )
      best = next
  }
  return best
}

export function followedOf(model: PlanModel, found: FoundPlan): FollowedOrder {
  const whole = scheduleOf(model, found.choices)
  const never = Object.entries(whole.cases).flatMap(([id, { start }]) => (start < 0 ? [id] : []))
  const cases = Object.fromEntries(Object.entries(whole.cases).filter(([id]) => !never.includes(id)))
  const uses = whole.uses.filter((use) => !never.includes(use.case))
  const schedule = { cases, uses }
  const missing = never.map((id) => `${id} never begins: its sets are not to be had within the hours of the line`)
  const begun = { ...model.day, cases: model.day.cases.filter(({ id }) => !never.includes(id)) }
  const broken = begun.cases.length === 0 ? missing : [...missing, ...checkPlan(begun, schedule)]
  return { schedule, objective: objectiveOf(model.day, schedule), broken, never }
}

/** The order of a schedule, by the start of its cases. */
export function orderOf({ cases }: Pick<PlanSchedule, 'cases'>): GivenOrder {
  return Object.entries(cases)
    .toSorted(([, a], [, b]) => a.start - b.start)
    .map(([id, { theatre }]) => ({ case: id, theatre }))
}
