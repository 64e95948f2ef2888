import type { PlanInstance } from './instance.ts'
import type { PlanSchedule } from './plan-schedule.ts'
import { whatHolds } from './what-holds.ts'

/** What cases or used sets wait for most. Minutes of waiting, summed. */
export interface BindingResource {
  readonly kind: 'set' | 'pool' | 'surgeon' | 'theatres'
  readonly what: string
  readonly minutes: number
  readonly says: string
}

/**
 * The resource that holds a day most: of sets and surgeons by the minutes that cases wait for them while their theatre is
 * free; where sets bind, of the pools by the minutes that the sets waited for stood before them. Where nothing waits, the
 * theatres themselves bind. It is what to look at first, not a proof: what one more would buy is tried apart.
 */
export function bindingResource(day: PlanInstance, schedule: PlanSchedule): BindingResource {
  const waits = new Map<string, BindingResource>()
  const add = (kind: BindingResource['kind'], what: string, minutes: number): void => {
    if (minutes <= 0) return
    const key = `${kind} ${what}`
    const sum = (waits.get(key)?.minutes ?? 0) + minutes
    waits.set(key, { kind, what, minutes: sum, says: sayOf(kind, what, sum) })
  }
  for (const hold of whatHolds(day, schedule)) {
    if (hold.by === 'surgeon') add('surgeon', hold.what, hold.waited)
    if (hold.by !== 'set' || hold.waited === 0) continue
    add('set', hold.what, hold.waited)
    for (const use of schedule.uses.filter(({ type }) => type === hold.what))
      for (const [index, step] of (use.job?.steps ?? []).entries()) {
        const before = use.job?.steps[index - 1]?.end ?? caseEnd(day, schedule, use.case)
        if (step.pool !== undefined) add('pool', step.pool, step.start - before)
      }
  }
  const sets = [...waits.values()].filter(({ kind }) => kind !== 'pool')
  const most = sets.toSorted((a, b) => b.minutes - a.minutes)[0]
  if (most === undefined)
    return {
      kind: 'theatres',
      what: 'theatres',
      minutes: 0,
      says: 'The theatres bind: no case waits for a set or a surgeon.',
    }
  if (most.kind !== 'set') return most
  const pool = [...waits.values()].filter(({ kind }) => kind === 'pool').toSorted((a, b) => b.minutes - a.minutes)[0]
  return pool === undefined || pool.minutes <= most.minutes ? most : pool
}

function caseEnd(day: PlanInstance, { cases }: PlanSchedule, id: string): number {
  return (cases[id]?.start ?? 0) + (day.cases.find((one) => one.id === id)?.dur ?? 0)
}

function sayOf(kind: BindingResource['kind'], what: string, minutes: number): string {
  switch (kind) {
    case 'set':
      return `Sets ${what} bind: cases wait ${minutes} min for them while a theatre is free.`
    case 'surgeon':
      return `${what} binds: cases wait ${minutes} min while a theatre is free.`
    case 'pool':
      return `${what} binds: sets that cases wait for stand ${minutes} min before it.`
    case 'theatres':
      return 'The theatres bind.'
  }
}
