import type { PlanInstance } from '#workings/planning/instance.ts'
import type { PlanAnswer } from '#workings/planning/plan-day.ts'
import { type Purchase, type Saving, savingOf } from '#workings/planning/purchases.ts'
import { type PlanSimulation, type SimulatedPlan, simulatePlan } from '#workings/planning/simulate-plan.ts'

/** Plans to be run many times: that of the day, and that of the day with each purchase. */
export interface SimulateTask {
  readonly base: { readonly day: PlanInstance; readonly plan: PlanAnswer }
  readonly tried: readonly (Purchase & { readonly plan: PlanAnswer })[]
  readonly simulation: PlanSimulation
}

export interface SimulatedDay {
  readonly simulated: Omit<SimulatedPlan, 'minutes'> | null
  /** The greatest saving first. */
  readonly savings: readonly Saving[]
}

export function simulateWork({ base, tried, simulation }: SimulateTask): SimulatedDay {
  if (base.plan.schedule === null) return { simulated: null, savings: [] }
  const { minutes: _, ...simulated } = simulatePlan(base.day, base.plan.schedule, simulation)
  const savings = tried.flatMap((each) => savingOf(base, each, simulation) ?? [])
  return { simulated, savings: savings.toSorted((a, b) => b.minutes.mean - a.minutes.mean) }
}
