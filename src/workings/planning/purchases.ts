import type { PlanInstance } from './instance.ts'
import type { PlanAnswer } from './plan-day.ts'
import type { PlanObjective } from './plan-schedule.ts'
import { quickerRoutes, withRoute } from './quicker-routes.ts'
import { meanOf, type PlanSimulation, simulatePlan } from './simulate-plan.ts'

/** Something that could be bought or arranged, as the day would be with it. */
export interface Purchase {
  readonly kind: 'set' | 'machine' | 'staff' | 'fasterRoute'
  readonly what: string
  readonly says: string
  readonly day: PlanInstance
}

/**
 * One more unit of each type that serves more often than it has units, one more of each pool, and for such a type each
 * other way that it is allowed to take and that is quicker.
 */
export function purchasesOf(day: PlanInstance): readonly Purchase[] {
  const uses = (id: string): number => day.cases.reduce((sum, { needs }) => sum + (needs[id] ?? 0), 0)
  const short = day.setTypes.filter(({ id, units }) => uses(id) > units)
  const sets = short.map(({ id }): Purchase => ({
    kind: 'set',
    what: id,
    says: `one more ${id}`,
    day: withUnit(day, id),
  }))
  const pools = day.pools.map(({ id, kind }): Purchase => {
    const more = day.pools.map((pool) => (pool.id === id ? { ...pool, count: pool.count + 1 } : pool))
    const staff = kind === 'staff'
    return {
      kind: staff ? 'staff' : 'machine',
      what: id,
      says: staff ? `one more at ${id}` : `one more machine like ${id}`,
      day: { ...day, pools: more },
    }
  })
  const faster = short.flatMap((type) =>
    quickerRoutes(day, type).map(({ route, by }): Purchase => ({
      kind: 'fasterRoute',
      what: type.id,
      says: `${type.id} by ${route} too, ${by} min quicker`,
      day: withRoute(day, type.id, route),
    })),
  )
  return [...sets, ...pools, ...faster]
}

function withUnit(day: PlanInstance, id: string): PlanInstance {
  const setTypes = day.setTypes.map((type) => {
    if (type.id !== id) return type
    return { ...type, units: type.units + 1, ...(type.avail === undefined ? {} : { avail: [...type.avail, 0] }) }
  })
  return { ...day, setTypes }
}

/** What a purchase saves on this day, with the same luck as without it. */
export interface Saving {
  readonly kind: Purchase['kind']
  readonly what: string
  readonly says: string
  /** Minutes of theatre time up to the end, summed over theatres: mean of the paired differences. */
  readonly minutes: { readonly mean: number; readonly standardError: number }
  readonly overtimeMinutes: number
  /** By the plans themselves, durations taken as certain. */
  readonly planned: PlanObjective
  /** Whether the plans of both days were proven: only then may the ranking be believed. */
  readonly proven: boolean
  readonly warning: string | null
}

/** Plans with and without a purchase, both as far as they were searched. Null where one of the days has no plan. */
export function savingOf(
  base: { readonly day: PlanInstance; readonly plan: PlanAnswer },
  { plan, ...purchase }: Purchase & { readonly plan: PlanAnswer },
  simulation: PlanSimulation,
): Saving | null {
  if (base.plan.schedule === null || plan.schedule === null) return null
  const before = simulatePlan(base.day, base.plan.schedule, simulation)
  const after = simulatePlan(purchase.day, plan.schedule, simulation)
  const proven = base.plan.status === 'optimal' && plan.status === 'optimal'
  return {
    kind: purchase.kind,
    what: purchase.what,
    says: purchase.says,
    minutes: meanOf(before.minutes.map((minutes, run) => minutes - (after.minutes[run] ?? 0))),
    overtimeMinutes: before.overtime.mean - after.overtime.mean,
    planned: {
      inversions: base.plan.objective.inversions - plan.objective.inversions,
      overtime: base.plan.objective.overtime - plan.objective.overtime,
      occupied: base.plan.objective.occupied - plan.objective.occupied,
    },
    proven,
    warning: proven
      ? null
      : 'One of the two plans is not proven to be the best: the saving may come from a luckier search. Do not rank purchases by it.',
  }
}
