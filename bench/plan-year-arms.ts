import type { DayInstance } from '#road/planning/instance-of-day.ts'
import { followOrder } from '#workings/planning/follow-order.ts'
import type { PlanInstance } from '#workings/planning/instance.ts'
import { planDay } from '#workings/planning/plan-day.ts'
import { objectiveOf } from '#workings/planning/plan-objective.ts'
import type { PlanSchedule } from '#workings/planning/plan-schedule.ts'
import { type LogSpread, simulatePlan } from '#workings/planning/simulate-plan.ts'

export const armNames = ['booked', 'packed', 'plan'] as const
export type ArmName = (typeof armNames)[number]

/** One way to run a day: who is where in which order, and the minutes that the patients were told. */
export interface Arm {
  readonly day: PlanInstance
  readonly schedule: PlanSchedule
  readonly told: Readonly<Record<string, number>>
  /** Whether no plan is better, by the planner's own bound. */
  readonly proven?: boolean
}

export const figureNames = [
  ['late starts', 'a day'],
  ['minutes late', 'min a day'],
  ['ends on time', 'chance'],
  ['overtime', 'min a day'],
  ['theatres taken', 'min a day'],
  ['inversions', 'a day'],
] as const
export type Figures = Readonly<Record<(typeof figureNames)[number][0], number>>

/** Work of a plan: the same number and seed give the same plan on every machine. */
const decodes = 3000
const tries = 300
/** A start counts as late from so many minutes past what was told. */
const lateFrom = 15

/**
 * `booked`: order, theatres and times as they were booked. `packed`: the booked order and theatres, each case as soon as the
 * planner lets it. `plan`: what the planner makes of the day. Or why the day cannot be compared.
 */
export function armsOf(made: DayInstance): Readonly<Record<ArmName, Arm>> | string {
  const { instance, cases, clock } = made
  if (instance === null) return 'nothing to plan'
  const bookedAt = new Map(cases.map((one) => [one.plan.id, clock.minuteOf(one.bookedAt)]))
  const atBooked = {
    ...instance,
    cases: instance.cases.map((one) => ({
      ...one,
      latest: undefined,
      earliest: Math.max(0, bookedAt.get(one.id) ?? 0),
    })),
  }
  const order = cases
    .toSorted((a, b) => clock.minuteOf(a.bookedAt) - clock.minuteOf(b.bookedAt))
    .map(({ plan, bookedTheatre }) => ({ case: plan.id, theatre: bookedTheatre }))
  const booked = followOrder(atBooked, order, tries, 1)
  const packed = followOrder(instance, order, tries, 1)
  const plan = planDay(instance, { seed: 1, decodes })
  if (plan.schedule === null) return `no plan: ${plan.status}`
  if (booked.never.length > 0 || packed.never.length > 0) return 'a case in the booked order never has its sets'
  return {
    booked: { day: atBooked, schedule: booked.schedule, told: Object.fromEntries(bookedAt) },
    packed: { day: instance, schedule: packed.schedule, told: startsOf(packed.schedule) },
    plan: { day: instance, schedule: plan.schedule, told: startsOf(plan.schedule), proven: plan.status === 'optimal' },
  }
}

/** Each arm with the same luck: the seed and the names of the cases are the same. */
export function figuresOf(
  arms: Readonly<Record<ArmName, Arm>>,
  about: { readonly spread: LogSpread; readonly runs: number },
): Readonly<Record<ArmName, Figures>> {
  const of = ({ day, schedule, told }: Arm): Figures => {
    const simulated = simulatePlan(day, schedule, { ...about, seed: 1, notBefore: told, lateFrom })
    return {
      'late starts': simulated.lateStarts.mean,
      'minutes late': simulated.lateMinutes.mean,
      'ends on time': simulated.onTime.share,
      overtime: simulated.overtime.mean,
      'theatres taken': simulated.minutes.reduce((sum, each) => sum + each, 0) / simulated.runs,
      inversions: objectiveOf(day, schedule).inversions,
    }
  }
  return { booked: of(arms.booked), packed: of(arms.packed), plan: of(arms.plan) }
}

function startsOf({ cases }: PlanSchedule): Readonly<Record<string, number>> {
  return Object.fromEntries(Object.entries(cases).map(([id, { start }]) => [id, start]))
}
