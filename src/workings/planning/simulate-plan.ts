import { seededGenerator } from '../statistics/special/seeded-generator.ts'
import { type PlanInstance, turnoverAfter } from './instance.ts'
import type { PlanSchedule } from './plan-schedule.ts'

/** How durations vary: the standard deviation of the logarithm for each case; without one a case takes what is planned. */
export type LogSpread = Readonly<Record<string, number>>

export interface PlanSimulation {
  readonly runs: number
  readonly seed: number
  readonly spread: LogSpread
  /** Minutes before which a case does not begin: the times that patients and surgeons were told. */
  readonly notBefore?: Readonly<Record<string, number>> | undefined
  /** Minutes past its told or planned start from which a start counts as late. */
  readonly lateFrom: number
}

/** A share of runs with its binomial standard error. */
export interface Chance {
  readonly share: number
  readonly standardError: number
}

export interface SimulatedPlan {
  readonly runs: number
  /** All theatres end by their close. */
  readonly onTime: Chance
  readonly overtime: { readonly mean: number; readonly standardError: number }
  /** Mean number of cases that begin late. */
  readonly lateStarts: { readonly mean: number; readonly standardError: number }
  /** Minutes past their told or planned start of the cases that begin late, summed. */
  readonly lateMinutes: { readonly mean: number; readonly standardError: number }
  readonly ends: readonly { readonly theatre: string; readonly mean: number; readonly p90: number }[]
  /** For each use of a set, how often its case could begin but for it. */
  readonly lateSets: readonly ({ readonly case: string; readonly type: string; readonly unit: number } & Chance)[]
  /** Minutes past their opening at which the theatres end, summed, for each run. */
  readonly minutes: readonly number[]
}

/**
 * Runs a plan many times with log-normal durations whose geometric mean is what is planned. The order of cases, sets, loads and
 * staff is kept and nobody looks ahead: each thing begins as soon as all that the plan puts before it is done. The normal
 * variates depend on the seed, the run and the name of the case alone, so that two plans meet the same luck.
 */
export function simulatePlan(day: PlanInstance, schedule: PlanSchedule, simulation: PlanSimulation): SimulatedPlan {
  const order = new PartialOrder(day, schedule, simulation)
  const luck = luckOf(day, simulation)
  const results = Array.from({ length: simulation.runs }, (_, run) => order.run((one) => luck(one, run)))
  const overtime = results.map((result) => result.overtime)
  const late = results.map((result) => result.lateStarts)
  return {
    runs: simulation.runs,
    onTime: chanceOf(results.filter((result) => result.overtime === 0).length, simulation.runs),
    overtime: meanOf(overtime),
    lateStarts: meanOf(late),
    lateMinutes: meanOf(results.map((result) => result.lateMinutes)),
    ends: day.theatres.map(({ id }, index) => {
      const ends = results.map((result) => result.ends[index] ?? 0).sort((a, b) => a - b)
      return { theatre: id, mean: meanOf(ends).mean, p90: ends[Math.ceil(0.9 * ends.length) - 1] ?? 0 }
    }),
    lateSets: schedule.uses.map((use, index) => {
      const count = results.filter((result) => result.lateUses.has(index)).length
      return { case: use.case, type: use.type, unit: use.unit, ...chanceOf(count, simulation.runs) }
    }),
    minutes: results.map((result) =>
      day.theatres.reduce((sum, { open }, index) => sum + Math.max(0, (result.ends[index] ?? open) - open), 0),
    ),
  }
}

/** Mean and its standard error. */
export function meanOf(values: readonly number[]): { readonly mean: number; readonly standardError: number } {
  const n = values.length
  const mean = values.reduce((sum, value) => sum + value, 0) / n
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0)
  return { mean, standardError: n < 2 ? 0 : Math.sqrt(squares / (n - 1) / n) }
}

function chanceOf(count: number, runs: number): Chance {
  const share = count / runs
  return { share, standardError: Math.sqrt((share * (1 - share)) / runs) }
}

/** Standard normal variates by Box and Muller, a stream of its own for each case. */
function luckOf(day: PlanInstance, { runs, seed }: PlanSimulation): (one: string, run: number) => number {
  const streams = new Map(
    day.cases.map(({ id }) => {
      const dice = seededGenerator(seed + textSeed(id))
      const pairs = Array.from({ length: Math.ceil(runs / 2) }, () => {
        const radius = Math.sqrt(-2 * Math.log(1 - dice.next()))
        const angle = 2 * Math.PI * dice.next()
        return [radius * Math.cos(angle), radius * Math.sin(angle)]
      })
      return [id, pairs.flat()] as const
    }),
  )
  return (one, run) => streams.get(one)?.[run] ?? 0
}

function textSeed(text: string): number {
  let seed = 0
  for (let at = 0; at < text.length; at += 1) seed = (Math.imul(seed, 31) + text.charCodeAt(at)) >>> 0
  return seed
}

interface RunResult {
  readonly ends: readonly number[]
  readonly overtime: number
  readonly lateStarts: number
  readonly lateMinutes: number
  readonly lateUses: ReadonlySet<number>
}

type Event =
  | { readonly kind: 'case'; readonly at: number; readonly id: string; readonly theatre: number }
  | {
      readonly kind: 'run'
      readonly at: number
      readonly pool: string | null
      readonly machine: string
      readonly members: readonly Member[]
    }

/** A use of a set that is in a run, and which step of its way that is. */
interface Member {
  readonly use: number
  readonly dur: number
}

/** The plan as what comes before what. */
class PartialOrder {
  readonly #day: PlanInstance
  readonly #schedule: PlanSchedule
  readonly #simulation: PlanSimulation
  readonly #events: readonly Event[]
  /** For each use, the use of the same unit before it; -1 for the first. */
  readonly #before: readonly number[]

  constructor(day: PlanInstance, schedule: PlanSchedule, simulation: PlanSimulation) {
    this.#day = day
    this.#schedule = schedule
    this.#simulation = simulation
    this.#events = eventsOf(day, schedule)
    this.#before = usesBefore(schedule)
  }

  run(luck: (one: string) => number): RunResult {
    const day = this.#day
    const theatreFree = day.theatres.map(({ open }) => open)
    const ends = day.theatres.map(({ open }) => open)
    const surgeonFree = new Map<string, number>()
    const machineFree = new Map<string, number>()
    /** When each use of a set has gone through what it has gone through so far. */
    const through = this.#schedule.uses.map(() => 0)
    const lateUses = new Set<number>()
    let lateStarts = 0
    let lateMinutes = 0
    for (const event of this.#events) {
      if (event.kind === 'run') {
        this.#runLine(event, through, machineFree)
        continue
      }
      const one = day.cases.find(({ id }) => id === event.id)
      if (one === undefined) continue
      const told = this.#simulation.notBefore?.[one.id]
      const free = Math.max(
        theatreFree[event.theatre] ?? 0,
        surgeonFree.get(one.surgeon) ?? 0,
        one.earliest ?? 0,
        told ?? 0,
      )
      const start = this.#withSets(one.id, { free, through, lateUses })
      const end = start + one.dur * Math.exp((this.#simulation.spread[one.id] ?? 0) * luck(one.id))
      theatreFree[event.theatre] = end + turnoverAfter(one, day)
      ends[event.theatre] = end
      surgeonFree.set(one.surgeon, end + day.surgeonGap)
      for (const [index, use] of this.#schedule.uses.entries()) if (use.case === one.id) through[index] = end
      const past = start - (told ?? event.at)
      if (past > this.#simulation.lateFrom) {
        lateStarts += 1
        lateMinutes += past
      }
    }
    const overtime = day.theatres.reduce((sum, { close }, index) => sum + Math.max(0, (ends[index] ?? 0) - close), 0)
    return { ends, overtime, lateStarts, lateMinutes, lateUses }
  }

  /** When a case begins that could at `free`, by its sets; notes the sets that it waits for. */
  #withSets(
    id: string,
    known: { readonly free: number; readonly through: readonly number[]; readonly lateUses: Set<number> },
  ): number {
    let start = known.free
    for (const [index, use] of this.#schedule.uses.entries()) {
      if (use.case !== id) continue
      const type = this.#day.setTypes.find((each) => each.id === use.type)
      const before = this.#before[index] ?? -1
      const sterile = before < 0 ? (type?.avail?.[use.unit] ?? 0) : (known.through[before] ?? 0)
      const there = sterile + (type?.lead ?? 0)
      if (there > known.free) known.lateUses.add(index)
      start = Math.max(start, there)
    }
    return start
  }

  #runLine(
    { members, machine, pool }: Extract<Event, { kind: 'run' }>,
    through: number[],
    free: Map<string, number>,
  ): void {
    const facts = this.#day.pools.find(({ id }) => id === pool)
    const ready = Math.max(...members.map(({ use }) => through[use] ?? 0))
    const start = pool === null ? ready : Math.max(ready, facts?.from ?? 0, free.get(machine) ?? 0)
    for (const { use, dur } of members) through[use] = start + dur
    if (pool !== null) free.set(machine, start + Math.max(...members.map(({ dur }) => dur)))
  }
}

/** Cases and runs in the order in which the plan begins them: whatever lies before another in the plan comes before it. */
function eventsOf(day: PlanInstance, { cases, uses }: PlanSchedule): readonly Event[] {
  const events: Event[] = Object.entries(cases).map(([id, { theatre, start }]) => ({
    kind: 'case',
    at: start,
    id,
    theatre: day.theatres.findIndex((each) => each.id === theatre),
  }))
  const runs = new Map<string, { at: number; step: number; pool: string | null; machine: string; members: Member[] }>()
  for (const [use, { job }] of uses.entries())
    for (const [step, run] of (job?.steps ?? []).entries()) {
      const machine = `${run.pool ?? ''} ${run.machine ?? 0}`
      const batch = day.pools.find(({ id }) => id === run.pool)?.kind === 'batch'
      const key = batch ? `${machine} ${run.start}` : `${use} ${step}`
      const member = { use, dur: run.end - run.start }
      const known = runs.get(key)
      if (known === undefined)
        runs.set(key, { at: run.start, step, pool: run.pool ?? null, machine, members: [member] })
      else known.members.push(member)
    }
  // At one minute a run of no length goes before what waits for it, and steps go in their order.
  const rank = new Map<Event, number>()
  for (const { step, ...run } of runs.values()) {
    const event: Event = { kind: 'run', ...run }
    rank.set(event, step)
    events.push(event)
  }
  const of = (event: Event): number => rank.get(event) ?? 1000
  return events.sort((a, b) => a.at - b.at || of(a) - of(b))
}

function usesBefore({ cases, uses }: PlanSchedule): readonly number[] {
  const startOf = (index: number): number => cases[uses[index]?.case ?? '']?.start ?? 0
  return uses.map((use, index) => {
    const own = uses.flatMap((other, at) =>
      other.type === use.type && other.unit === use.unit && startOf(at) < startOf(index) ? [at] : [],
    )
    return own.reduce((last, at) => (last < 0 || startOf(at) > startOf(last) ? at : last), -1)
  })
}
