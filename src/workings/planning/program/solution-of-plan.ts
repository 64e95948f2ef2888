import { brokenBy, valueOf } from '#workings/constraints/broken-by.ts'
import { not } from '#workings/constraints/constraint-model.ts'
import type { PlanSchedule } from '../plan-schedule.ts'
import { alikeCases } from './case-part.ts'
import { type DoneJob, jobsOfPlan } from './jobs-of-plan.ts'
import type { JobSlot } from './job-part.ts'
import type { LoadPart } from './line-part.ts'
import type { PlanProgram } from './plan-program.ts'

/**
 * The values that a schedule has in a program; null when it is no solution of it, as when it is no better than what is asked
 * for, or has a time between two steps.
 */
export function solutionOfPlan(program: PlanProgram, schedule: PlanSchedule): readonly number[] | null {
  const values = [...program.constraints.lows]
  const set = new Set<number>()
  const give = (variable: number | undefined, value: number): void => {
    if (variable === undefined) return
    values[variable] = value
    set.add(variable)
  }
  const placed = placeCases(program, schedule, give)
  countCases(program, placed, give)
  const jobs = jobsOfPlan(program.day, schedule)
  for (const [type, own] of jobs.entries()) {
    const slots = program.jobs.filter((slot) => slot.type === type)
    if (own.length > slots.length) return null
    for (const [nth, slot] of slots.entries()) placeJob(slot, own[nth], program, give)
  }
  for (const load of program.loads) if (!placeLoads(program, load, values, give)) return null
  for (const constraint of program.constraints.constraints) {
    if (constraint.kind !== 'linear' || constraint.when.length !== 1) continue
    const [literal = 0] = constraint.when
    const variable = literal >= 0 ? literal : not(literal)
    if (set.has(variable)) continue
    const sum = valueOf(constraint.terms, values)
    const kept = sum >= constraint.low && sum <= constraint.high
    give(variable, kept === literal >= 0 ? 1 : 0)
  }
  return brokenBy(program.constraints, values).length === 0 ? values : null
}

type Give = (variable: number | undefined, value: number) => void

interface PlacedCase {
  readonly theatre: number
  readonly start: number
}

/** Cases that are alike in everything change places, so that the first of them goes first. */
function placeCases(program: PlanProgram, schedule: PlanSchedule, give: Give): readonly PlacedCase[] {
  const { day } = program
  const theatreAt = new Map(day.model.day.theatres.map(({ id }, index) => [id, index]))
  const placed = day.model.day.cases.map(({ id }): PlacedCase => {
    const at = schedule.cases[id]
    return { theatre: theatreAt.get(at?.theatre ?? '') ?? -1, start: (at?.start ?? 0) / day.step }
  })
  for (const group of alikeCases(day)) {
    const sorted = group.map((one) => placed[one] ?? { theatre: -1, start: 0 }).toSorted((a, b) => a.start - b.start)
    for (const [nth, one] of group.entries()) placed[one] = sorted[nth] ?? { theatre: -1, start: 0 }
  }
  for (const [one, { theatre, start }] of placed.entries()) {
    give(program.cases.starts[one], start)
    for (const each of program.cases.housed[one] ?? []) give(each.when, each.theatre === theatre ? 1 : 0)
  }
  return placed
}

function countCases({ day, counted }: PlanProgram, placed: readonly PlacedCase[], give: Give): void {
  for (const [theatre, { open, close }] of day.theatres.entries()) {
    const ends = placed.flatMap((at, one) =>
      at.theatre === theatre ? [(at.start + (day.model.cases[one]?.dur ?? 0)) * day.step] : [],
    )
    const end = Math.max(...ends)
    give(counted.overtime[theatre], ends.length === 0 ? 0 : Math.max(0, end - close))
    give(counted.occupied[theatre], ends.length === 0 ? 0 : end - open * day.step)
  }
  for (const { low, high, literal } of counted.inversions) {
    const [a, b] = [placed[low], placed[high]]
    give(literal, a !== undefined && b !== undefined && a.theatre === b.theatre && b.start < a.start ? 1 : 0)
  }
}

function placeJob(slot: JobSlot, job: DoneJob | undefined, { constraints }: PlanProgram, give: Give): void {
  if (slot.present !== undefined) give(slot.present, job === undefined ? 0 : 1)
  // A job that is not done stands after all that are.
  give(slot.release, job?.release ?? constraints.highs[slot.release] ?? 0)
  give(slot.ready, job?.ready ?? constraints.highs[slot.ready] ?? 0)
  for (const way of slot.ways) {
    const taken = way.route === job?.route
    if (way.when !== slot.present) give(way.when, taken ? 1 : 0)
    for (const step of way.steps)
      give(step.start, taken ? (job.starts[step.place] ?? 0) : (constraints.lows[step.start] ?? 0))
  }
  if (job === undefined) for (const { literal } of slot.after) give(literal, 0)
}

/** Puts what begins at one minute into as few loads as it fits in; false when it does not fit. */
function placeLoads({ day, jobs }: PlanProgram, load: LoadPart, values: readonly number[], give: Give): boolean {
  const pool = day.model.pools[load.pool]
  if (pool === undefined) return false
  const steps = jobs
    .flatMap(({ ways }) => ways.flatMap((way) => way.steps))
    .filter((step) => step.pool === load.pool && (step.when === undefined || values[step.when] === 1))
    .map((step) => ({ ...step, at: values[step.start] ?? 0 }))
    .toSorted((a, b) => a.at - b.at || b.places - a.places)
  const loads: { readonly at: number; free: number; readonly starts: number[] }[] = []
  for (const step of steps) {
    const open = loads.find(({ at, free }) => at === step.at && free >= step.places)
    if (open === undefined) loads.push({ at: step.at, free: pool.cap - step.places, starts: [step.start] })
    else {
      open.free -= step.places
      open.starts.push(step.start)
    }
  }
  if (loads.length > load.starts.length) return false
  const at: number[] = []
  for (const [nth, start] of load.starts.entries()) {
    const least = Math.max(at[nth - 1] ?? pool.from, (at[nth - pool.count] ?? pool.from - pool.dur) + pool.dur)
    at.push(loads[nth]?.at ?? Math.max(least, pool.to - pool.dur + 1))
    give(start, at[nth] ?? 0)
  }
  for (const [step, literals] of load.places)
    for (const [nth, literal] of literals.entries()) give(literal, loads[nth]?.starts.includes(step) === true ? 1 : 0)
  return true
}
