import type { PlanInstance, PlanSetType } from './instance.ts'
import type { PlanRun, PlanSchedule, PlanUse } from './plan-schedule.ts'

/*
 * What may not be stored, as what comes out of a bath, is treated as late as its next case lets it. The search treats
 * everything as soon as it can; that no other run has to give way for it makes the later treatment possible afterwards.
 */

interface Waiting {
  readonly use: number
  readonly type: PlanSetType
  /** When it must be ready at the latest. */
  readonly due: number
  /** When the case that it serves begins. */
  readonly serves: number
  /** The case that it serves. */
  readonly for: string
}

/** The same plan with the last work on whatever may not be stored moved towards its next case. */
export function treatedLate(day: PlanInstance, schedule: PlanSchedule): PlanSchedule {
  const waiting = waitingIn(day, schedule)
  if (waiting.length === 0) return schedule
  const uses = [...schedule.uses]
  // The last first: what is moved out of the way makes room for the one before it.
  for (const one of waiting.toSorted((a, b) => b.due - a.due)) {
    const use = uses[one.use]
    if (use !== undefined) uses[one.use] = movedLater(day, uses, use, one)
  }
  return { ...schedule, uses }
}

/** What lies longer before a case than it keeps. */
export interface LiesTooLong {
  readonly type: string
  readonly case: string
  readonly lies: number
  readonly keeps: number
}

/** What lies longer than it keeps before it serves. */
export function liesTooLong(day: PlanInstance, schedule: PlanSchedule): readonly LiesTooLong[] {
  return waitingIn(day, schedule).flatMap(({ use, type, serves, for: served }) => {
    const lies = serves - (schedule.uses[use]?.job?.ready ?? serves)
    const keeps = type.keeps ?? lies
    return lies > keeps ? [{ type: type.id, case: served, lies, keeps }] : []
  })
}

/** Minutes by which things lie longer than they keep before they serve, summed. */
export function keptTooLong(day: PlanInstance, schedule: PlanSchedule): number {
  return liesTooLong(day, schedule).reduce((sum, { lies, keeps }) => sum + lies - keeps, 0)
}

function waitingIn(day: PlanInstance, { cases, uses }: PlanSchedule): readonly Waiting[] {
  return day.setTypes
    .filter(({ keeps }) => keeps !== undefined)
    .flatMap((type) => {
      const own = uses
        .map((use, index) => ({ use, index, start: cases[use.case]?.start ?? -1 }))
        .filter(({ use, start }) => use.type === type.id && start >= 0)
        .toSorted((a, b) => a.start - b.start)
      return own.flatMap(({ use, index }, at): readonly Waiting[] => {
        const next = own.slice(at + 1).find((each) => each.use.unit === use.unit)
        if (use.job === undefined || next === undefined) return []
        return [{ use: index, type, due: next.start - type.lead, serves: next.start, for: next.use.case }]
      })
    })
}

/** Moves the last work at a pool, and what follows it, as late as its pool has room for it. */
function movedLater(day: PlanInstance, uses: readonly PlanUse[], use: PlanUse, { due }: Waiting): PlanUse {
  const { job } = use
  const last = job?.steps.findLastIndex(({ pool }) => pool !== undefined) ?? -1
  const run = job?.steps[last]
  const pool = day.pools.find(({ id }) => id === run?.pool)
  // A machine that others share is not held back for one of them.
  if (job === undefined || run === undefined || pool === undefined) return use
  const others = uses.flatMap((each) =>
    each === use ? [] : (each.job?.steps.filter((step) => step.pool === pool.id) ?? []),
  )
  if (pool.kind === 'batch' && others.some(({ start, machine }) => start === run.start && machine === run.machine))
    return use
  const length = run.end - run.start
  const latest = Math.min(due - (job.ready - run.start), pool.to - length)
  for (let start = latest; start > run.start; start -= 1) {
    const machine = freeMachine(pool.count, others, { start, end: start + length })
    if (machine >= 0) return shifted(use, job, last, { by: start - run.start, machine })
  }
  return use
}

function freeMachine(
  count: number,
  others: readonly PlanRun[],
  { start, end }: { readonly start: number; readonly end: number },
): number {
  const taken = new Set(others.flatMap((run) => (run.start < end && start < run.end ? [run.machine ?? 0] : [])))
  for (let machine = 0; machine < count; machine += 1) if (!taken.has(machine)) return machine
  return -1
}

function shifted(
  use: PlanUse,
  job: NonNullable<PlanUse['job']>,
  last: number,
  { by, machine }: { readonly by: number; readonly machine: number },
): PlanUse {
  const steps = job.steps.map((step, at) => {
    if (at < last) return step
    const later = { ...step, start: step.start + by, end: step.end + by }
    return at === last ? { ...later, machine } : later
  })
  return { ...use, job: { ...job, steps, ready: job.ready + by } }
}
