import type { ModelStep, PlanModel } from './plan-model.ts'

/**
 * The earliest minute at which a unit of a type can be sterile again when it goes into the line at `from` and nothing
 * stands in its way but the hours of the pools; Infinity when no route ends within them.
 */
export function earliestReady(model: PlanModel, type: number, from: number): number {
  let best = Number.POSITIVE_INFINITY
  for (const route of model.types[type]?.routes ?? []) best = Math.min(best, walked(model, route, from))
  return best
}

function walked(model: PlanModel, route: readonly ModelStep[], from: number): number {
  let at = from
  for (const step of route) {
    const pool = model.pools[step.pool]
    if (pool === undefined) {
      at += step.dur
      continue
    }
    at = Math.max(at, pool.from) + step.dur
    const fits = pool.count > 0 && at <= pool.to
    if (!fits) return Number.POSITIVE_INFINITY
  }
  return at
}
