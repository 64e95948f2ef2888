import { type ConstraintDraft, type Literal, not, type Task } from '#workings/constraints/constraint-model.ts'
import type { CoarseModel } from './coarse-model.ts'
import type { JobSlot, JobStep } from './job-part.ts'

/**
 * How the line is taken. `free`: nothing is ever in the way of another. `flow`: staff and places of machines are limited,
 * but each unit may begin its run by itself. `loads`: as it is; whatever shares a start shares a run.
 */
export type LineTaken = 'free' | 'flow' | 'loads'

/** Loads of one batch pool, in the order of their starts. */
export interface LoadPart {
  readonly pool: number
  readonly starts: readonly number[]
  /** For each step at the pool, by the variable of its start, the literals of the loads that it may be in. */
  readonly places: ReadonlyMap<number, readonly Literal[]>
}

export function addLine(
  draft: ConstraintDraft,
  day: CoarseModel,
  jobs: readonly JobSlot[],
  taken: LineTaken,
): readonly LoadPart[] {
  if (taken === 'free') return []
  const steps = jobs.flatMap(({ ways }) => ways.flatMap((way) => way.steps))
  return day.model.pools.flatMap((pool, index) => {
    const own = steps.filter((step) => step.pool === index)
    if (own.length === 0) return []
    const tasks = own.map(({ start, size, when, places }): Task => ({
      start,
      size,
      when,
      demand: pool.batch ? places : 1,
    }))
    if (!pool.batch && pool.count === 1) draft.alone(tasks)
    else draft.within(tasks, pool.batch ? pool.count * pool.cap : pool.count)
    return pool.batch && taken === 'loads' ? [{ pool: index, ...addLoads(draft, pool, own) }] : []
  })
}

/**
 * Loads with sorted starts. All runs of a pool last as long, so that with n machines it is enough that each load begins
 * when the nth before it has ended: no load needs to be told its machine. Unused loads come last.
 */
function addLoads(
  draft: ConstraintDraft,
  pool: CoarseModel['model']['pools'][number],
  steps: readonly JobStep[],
): Omit<LoadPart, 'pool'> {
  const rounds = Math.max(0, Math.floor((pool.to - pool.from) / Math.max(1, pool.dur)))
  const most = Math.min(steps.length, rounds * pool.count)
  const starts = Array.from({ length: most }, (_, nth) => {
    const first = pool.from + Math.floor(nth / pool.count) * pool.dur
    return draft.whole(first, pool.to + (Math.floor(nth / pool.count) + 1) * pool.dur)
  })
  const used = starts.map((start) => {
    const literal = draft.literal()
    draft.atMost(start, pool.to - pool.dur, [literal])
    return literal
  })
  for (const [nth, start] of starts.entries()) {
    const [next, again] = [starts[nth + 1], starts[nth + pool.count]]
    if (next !== undefined) {
      draft.apart(start, next, 0)
      draft.anyOf([not(used[nth + 1] ?? 0), used[nth] ?? 0])
    }
    if (again !== undefined) draft.apart(start, again, pool.dur)
  }
  const loaded = steps.map((step) => addPlace(draft, step, starts, used))
  for (const nth of starts.keys())
    draft.linear(
      steps.map(({ places }, index) => [loaded[index]?.[nth] ?? 0, places]),
      0,
      pool.cap,
    )
  return { starts, places: new Map(steps.map((step, index) => [step.start, loaded[index] ?? []])) }
}

function addPlace(
  draft: ConstraintDraft,
  step: JobStep,
  starts: readonly number[],
  used: readonly Literal[],
): readonly Literal[] {
  const places = starts.map((start, nth) => {
    const literal = draft.literal()
    draft.linear(
      [
        [step.start, 1],
        [start, -1],
      ],
      0,
      0,
      [literal],
    )
    draft.anyOf([not(literal), used[nth] ?? 0])
    return literal
  })
  draft.exactlyOne(step.when === undefined ? places : [...places, not(step.when)])
  return places
}
