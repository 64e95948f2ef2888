import { checkPlan } from './check-plan.ts'
import type { PlanInstance } from './instance.ts'
import { objectiveOf } from './plan-objective.ts'
import {
  compareObjectives,
  type PlanObjective,
  type PlanRun,
  type PlanSchedule,
  type PlanUse,
} from './plan-schedule.ts'

/**
 * The best objective of a tiny day by trying every start, theatre, unit, route and run at whole multiples of `step`, each
 * whole schedule judged by the checker alone; null when nothing is sound. Shares nothing with the planner but the checker
 * and the count. For a few cases, few units, machines counted one each.
 */
export function bruteForce(day: PlanInstance, step: number): PlanObjective | null {
  const placements = placementsOf(day, step)
    .map((cases) => ({ cases, objective: objectiveOf(day, { cases }) }))
    .sort((a, b) => compareObjectives(a.objective, b.objective))
  return placements.find(({ cases }) => canBeServed(day, cases, step))?.objective ?? null
}

type Cases = PlanSchedule['cases']

/** Every way to house the cases that the checker finds sound but for the sets. */
function placementsOf(day: PlanInstance, step: number): readonly Cases[] {
  const withoutSets = (upTo: number): PlanInstance => ({
    ...day,
    cases: day.cases.slice(0, upTo).map((one) => ({ ...one, needs: {} })),
  })
  let placed: Cases[] = [{}]
  for (const [index, one] of day.cases.entries())
    placed = placed.flatMap((cases) =>
      one.theatres
        .flatMap((theatre) => startsOf(day, theatre, step).map((start) => ({ ...cases, [one.id]: { theatre, start } })))
        .filter((next) => checkPlan(withoutSets(index + 1), { cases: next, uses: [] }).length === 0),
    )
  return placed
}

function startsOf(day: PlanInstance, id: string, step: number): readonly number[] {
  const theatre = day.theatres.find((each) => each.id === id)
  const starts: number[] = []
  for (let at = 0; at <= (theatre?.hardClose ?? 0); at += step) starts.push(at)
  return starts
}

/** Whether some unit for each use, and some way of each unit that serves again, keeps every rule. */
function canBeServed(day: PlanInstance, cases: Cases, step: number): boolean {
  const wanted = day.cases.flatMap((one) =>
    Object.entries(one.needs).flatMap(([type, count]) =>
      Array.from({ length: count }, () => ({ case: one.id, type, start: cases[one.id]?.start ?? 0, dur: one.dur })),
    ),
  )
  wanted.sort((a, b) => a.start - b.start)
  const withUnits = (chosen: readonly PlanUse[]): boolean => {
    const use = wanted[chosen.length]
    if (use === undefined) return withJobs(day, { cases, uses: chosen }, step)
    const units = day.setTypes.find(({ id }) => id === use.type)?.units ?? 0
    return Array.from({ length: units }, (_, unit) => unit).some((unit) =>
      withUnits([...chosen, { case: use.case, type: use.type, unit }]),
    )
  }
  return withUnits([])
}

/** Gives every use that its unit serves after again each route at each time, one use after the other. */
function withJobs(day: PlanInstance, schedule: PlanSchedule, step: number): boolean {
  const open = schedule.uses.findIndex((use, index) => {
    const next = schedule.uses.slice(index + 1).find((other) => other.type === use.type && other.unit === use.unit)
    return next !== undefined && use.job === undefined
  })
  if (open < 0) return checkPlan(day, schedule).length === 0
  const use = schedule.uses[open]
  const next = schedule.uses.slice(open + 1).find((other) => other.type === use?.type && other.unit === use.unit)
  const type = day.setTypes.find(({ id }) => id === use?.type)
  const one = day.cases.find(({ id }) => id === use?.case)
  if (use === undefined || next === undefined || type === undefined || one === undefined) return false
  const from = (schedule.cases[one.id]?.start ?? 0) + one.dur
  const until = (schedule.cases[next.case]?.start ?? 0) - type.lead
  return type.routes.some((route) =>
    runsOf(day, route, { from, until, step }).some((steps) => {
      const job = { route, steps, ready: steps.at(-1)?.end ?? from }
      const uses = schedule.uses.with(open, { ...use, job })
      return isLineSound(day, { ...schedule, uses }) && withJobs(day, { ...schedule, uses }, step)
    }),
  )
}

/** Whether what is in the line so far keeps its rules; what is not there yet cannot break one. */
function isLineSound(day: PlanInstance, { cases, uses }: PlanSchedule): boolean {
  const served = uses.filter(({ job }) => job !== undefined)
  return !checkPlan(day, { cases, uses: served }).some((says) =>
    /more than|holds more|runs twice|outside the hours of/.test(says),
  )
}

interface Span {
  readonly from: number
  readonly until: number
  readonly step: number
}

/** Every way through a route that begins and ends within a span. */
function runsOf(day: PlanInstance, route: string, { from, until, step }: Span): readonly (readonly PlanRun[])[] {
  let ways: readonly (readonly PlanRun[])[] = [[]]
  for (const each of day.routes[route] ?? []) {
    const pool = day.pools.find(({ id }) => id === each.pool)
    const dur = each.kind === 'batch' ? (pool?.dur ?? 0) : (each.dur ?? 0)
    ways = ways.flatMap((way) => {
      const first = way.at(-1)?.end ?? from
      const starts: number[] = []
      for (let at = first; at + dur <= until; at += step) starts.push(at)
      return starts.map((start) => [
        ...way,
        {
          name: each.name,
          start,
          end: start + dur,
          ...(each.pool === undefined ? {} : { pool: each.pool, machine: 0 }),
        },
      ])
    })
  }
  return ways
}
