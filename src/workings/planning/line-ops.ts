import type { PlanModel } from './plan-model.ts'

/** What every route of a type asks of one pool, at the least: minutes before it, in it and after it. */
export interface LineOp {
  readonly type: number
  readonly head: number
  readonly dur: number
  readonly tail: number
}

/** For each pool the types that cannot pass by it. */
export function lineOps(model: PlanModel): readonly (readonly LineOp[])[] {
  return model.pools.map((_, pool) =>
    model.types.flatMap((type, index) => {
      const visits = type.routes.map((route) => {
        const at = route.findIndex((step) => step.pool === pool)
        const minutes = (steps: typeof route): number => steps.reduce((sum, { dur }) => sum + dur, 0)
        return at < 0
          ? undefined
          : { head: minutes(route.slice(0, at)), dur: route[at]?.dur ?? 0, tail: minutes(route.slice(at + 1)) }
      })
      const seen = visits.flatMap((visit) => (visit === undefined ? [] : [visit]))
      if (seen.length === 0 || seen.length < visits.length) return []
      const least = (of: 'head' | 'dur' | 'tail'): number => Math.min(...seen.map((visit) => visit[of]))
      return [{ type: index, head: least('head'), dur: least('dur'), tail: least('tail') + type.lead }]
    }),
  )
}

/**
 * The earliest minute at which all units that must be back can be there, by the load of one pool: of the units that come
 * to it no earlier than one minute and have no less to do after it than another, all must pass it in between.
 * @param releases for each type, the minutes at which the units that must be back go into the line, at the earliest.
 */
export function poolReady(
  pool: PlanModel['pools'][number],
  ops: readonly LineOp[],
  sizes: readonly number[],
  releases: readonly (readonly number[])[],
): number {
  const units = ops.flatMap((op) =>
    (releases[op.type] ?? []).map((release) => ({
      from: Math.max(pool.from, release + op.head),
      amount: pool.batch ? (sizes[op.type] ?? 1) : op.dur,
      tail: op.tail,
    })),
  )
  units.sort((a, b) => b.from - a.from)
  let ready = 0
  for (const tail of new Set(units.map((unit) => unit.tail))) {
    let amount = 0
    for (const unit of units) {
      if (unit.tail < tail) continue
      amount += unit.amount
      ready = Math.max(ready, unit.from + minutesFor(pool, amount) + tail)
    }
  }
  return ready
}

function minutesFor({ batch, cap, count, dur }: PlanModel['pools'][number], amount: number): number {
  if (!batch) return Math.ceil(amount / Math.max(1, count))
  return Math.ceil(Math.ceil(amount / cap) / Math.max(1, count)) * dur
}
