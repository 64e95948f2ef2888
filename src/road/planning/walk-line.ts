import type { PlanInstance } from '#workings/planning/instance.ts'

type Step = PlanInstance['routes'][string][number]

/**
 * The minute at which a set has gone through these steps when it begins at `from` and waits for nothing but the hours of
 * the line, which come back each day. Infinity when a step never fits into them.
 */
export function walkLine(
  steps: readonly Step[],
  pools: readonly PlanInstance['pools'][number][],
  from: number,
): number {
  return steps.reduce((at, step) => {
    const pool = step.kind === 'delay' ? undefined : pools.find(({ id }) => id === step.pool)
    const dur = (step.kind === 'batch' ? pool?.dur : step.dur) ?? 0
    if (step.kind === 'delay') return at + dur
    return pool === undefined || pool.count === 0 ? Number.POSITIVE_INFINITY : withinHours(at, dur, pool)
  }, from)
}

/**
 * The same for what may not be stored: whatever is done before the day, its last treatment is on the day itself, so that it
 * comes fresh to its case.
 */
export function walkToUse(
  { steps, keeps }: { readonly steps: readonly Step[]; readonly keeps: number | null },
  pools: readonly PlanInstance['pools'][number][],
  from: number,
): number {
  if (keeps === null) return walkLine(steps, pools, from)
  const last = Math.max(
    0,
    steps.findLastIndex(({ kind }) => kind !== 'delay'),
  )
  return walkLine(steps.slice(last), pools, Math.max(0, walkLine(steps.slice(0, last), pools, from)))
}

function withinHours(at: number, dur: number, { from, to }: { readonly from: number; readonly to: number }): number {
  if (dur > to - from || !Number.isFinite(at)) return Number.POSITIVE_INFINITY
  const midnight = Math.floor(at / 1440) * 1440
  const start = Math.max(at - midnight, from)
  return midnight + (start + dur <= to ? start : 1440 + from) + dur
}
