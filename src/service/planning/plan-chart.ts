import { type PlanInstance, turnoverAfter } from '#workings/planning/instance.ts'
import type { PlanSchedule } from '#workings/planning/plan-schedule.ts'
import type { DayInstance } from '#road/planning/instance-of-day.ts'

/** One bar of a row; minutes of the day. */
export interface PlanBar {
  readonly kind: 'case' | 'turnover' | 'running' | 'over' | 'use' | 'step' | 'ready' | 'run'
  readonly label: string
  readonly start: number
  readonly end: number
  readonly case: string | null
}

export interface PlanRow {
  readonly row: string
  readonly bars: readonly PlanBar[]
}

/** The picture of a plan: rows of theatres, of sets, and of machines and staff. */
export interface PlanChart {
  readonly theatres: readonly (PlanRow & {
    readonly open: number
    readonly close: number
    readonly hardClose: number
  })[]
  readonly sets: readonly (PlanRow & { readonly type: string; readonly unit: number; readonly set: string | null })[]
  readonly machines: readonly (PlanRow & { readonly pool: string; readonly kind: 'staff' | 'batch' })[]
}

type Day = Pick<DayInstance, 'units' | 'begun'> & { readonly instance: PlanInstance }

export function planChart(day: Day, schedule: PlanSchedule): PlanChart {
  return { theatres: theatreRows(day, schedule), sets: setRows(day, schedule), machines: machineRows(day, schedule) }
}

function theatreRows({ instance, begun }: Day, { cases }: PlanSchedule): PlanChart['theatres'] {
  return instance.theatres.map(({ id, open, close, hardClose }) => {
    const own = instance.cases.flatMap((one) => {
      const placed = cases[one.id]
      if (placed?.theatre !== id) return []
      const end = placed.start + one.dur
      const free = end + turnoverAfter(one, instance)
      return [
        { kind: 'case' as const, label: one.id, start: placed.start, end, case: one.id },
        { kind: 'turnover' as const, label: '', start: end, end: free, case: one.id },
      ]
    })
    const before = begun
      .filter(({ theatre }) => theatre === id)
      .map(({ case: one, start, end, running }) => {
        const key = one.slice(one.indexOf(':') + 1)
        return { kind: running ? ('running' as const) : ('over' as const), label: key, start, end, case: key }
      })
    return { row: id, open, close, hardClose, bars: inTime([...before, ...own]) }
  })
}

function setRows({ instance, units }: Day, { cases, uses }: PlanSchedule): PlanChart['sets'] {
  return instance.setTypes.flatMap((type) =>
    Array.from({ length: type.units }, (_, unit) => {
      const behind = units.find((each) => each.type === type.id)?.sets[unit]
      const at = type.avail?.[unit] ?? 0
      const own = uses
        .filter((use) => use.type === type.id && use.unit === unit)
        .flatMap((use) => {
          const start = cases[use.case]?.start ?? 0
          const end = start + (instance.cases.find(({ id }) => id === use.case)?.dur ?? 0)
          const steps = (use.job?.steps ?? []).map((step) => ({
            kind: 'step' as const,
            label: step.name,
            start: step.start,
            end: step.end,
            case: use.case,
          }))
          return [{ kind: 'use' as const, label: use.case, start, end, case: use.case }, ...steps]
        })
      const waits = at > 0 ? [{ kind: 'ready' as const, label: behind?.says ?? '', start: 0, end: at, case: null }] : []
      const row = behind?.name ?? `${type.id} ${unit + 1}`
      return { row, type: type.id, unit, set: behind?.set ?? null, bars: inTime([...waits, ...own]) }
    }),
  )
}

function machineRows({ instance }: Day, { uses }: PlanSchedule): PlanChart['machines'] {
  const runs = uses.flatMap((use) => (use.job?.steps ?? []).map((step) => ({ use, step })))
  return instance.pools.flatMap((pool) =>
    Array.from({ length: pool.count }, (_, machine) => {
      const own = runs.filter(({ step }) => step.pool === pool.id && (step.machine ?? 0) === machine)
      const starts = [...new Set(own.map(({ step }) => step.start))].sort((a, b) => a - b)
      const bars = starts.map((start) => {
        const together = own.filter(({ step }) => step.start === start)
        const label = together.map(({ use }) => `${use.type} ${use.unit + 1}`).join(', ')
        return { kind: 'run' as const, label, start, end: together[0]?.step.end ?? start, case: null }
      })
      const row = pool.count === 1 ? pool.id : `${pool.id} ${machine + 1}`
      return { row, pool: pool.id, kind: pool.kind, bars }
    }),
  )
}

function inTime(bars: readonly PlanBar[]): readonly PlanBar[] {
  return bars.toSorted((a, b) => a.start - b.start || a.end - b.end)
}
