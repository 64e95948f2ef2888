import {
  type Constraint,
  type ConstraintModel,
  type Literal,
  not,
  unlimited,
} from '#workings/constraints/constraint-model.ts'
import type { SeededGenerator } from '#workings/statistics/special/seeded-generator.ts'
import type { PlanProgram } from './plan-program.ts'

/** What of a plan is set free; everything else keeps its theatre, order, route and load, though not its minute. */
export interface Freed {
  readonly cases: ReadonlySet<number>
  /** Jobs by their place: the use that they come after; the case that they are back for. */
  readonly releases: ReadonlySet<number>
  readonly returns: ReadonlySet<number>
  /** Steps by the variable of their start: the load that they are in. */
  readonly steps: ReadonlySet<number>
}

/**
 * Draws what to set free: mostly all that goes on in some hours of the day, else the lists of two theatres or all sets of two
 * types. `size` from 0 to 1 says how much.
 */
export function drawFreed(program: PlanProgram, values: readonly number[], dice: SeededGenerator, size: number): Freed {
  const { day, jobs } = program
  const kind = dice.next()
  if (kind < 0.7) return freedHours(program, values, dice, size)
  if (kind < 0.85) {
    const theatres = new Set([dice.below(day.theatres.length), dice.below(day.theatres.length)])
    const own = [...day.model.cases.keys()].filter((one) => theatres.has(theatreOf(program, values, one)))
    return freedWhole(
      program,
      own,
      [...jobs.keys()].filter(() => dice.next() < size),
    )
  }
  const type = dice.below(day.model.types.length)
  const some = [...day.model.cases.keys()].filter(() => dice.next() < size / 2)
  return freedWhole(
    program,
    some,
    [...jobs.keys()].filter((job) => jobs[job]?.type === type),
  )
}

function freedWhole({ jobs }: PlanProgram, cases: readonly number[], own: readonly number[]): Freed {
  const ways = own.flatMap((job) => jobs[job]?.ways ?? [])
  const steps = new Set(ways.flatMap((way) => way.steps.map(({ start }) => start)))
  return { cases: new Set(cases), releases: new Set(own), returns: new Set(own), steps }
}

function freedHours(
  { day, cases, jobs }: PlanProgram,
  values: readonly number[],
  dice: SeededGenerator,
  size: number,
): Freed {
  const at = (variable: number | undefined): number => values[variable ?? -1] ?? 0
  const open = Math.min(...day.theatres.map((theatre) => theatre.open))
  const ends = day.model.cases.map(({ dur }, one) => at(cases.starts[one]) + dur)
  const span = Math.max(...ends) - open
  const length = Math.max(1, Math.round(span * (0.1 + 0.6 * size)))
  const from = open + dice.below(Math.max(1, span - Math.floor(length / 2)))
  const within = (start: number, end = start): boolean => start < from + length && end >= from
  const some = (of: (job: PlanProgram['jobs'][number]) => boolean): ReadonlySet<number> =>
    new Set(jobs.flatMap((job, index) => (of(job) ? [index] : [])))
  return {
    cases: new Set(ends.flatMap((end, one) => (within(at(cases.starts[one]), end) ? [one] : []))),
    releases: some(({ release }) => within(at(release))),
    returns: some(({ ready }) => within(at(ready))),
    steps: new Set(
      jobs.flatMap(({ ways }) =>
        ways.flatMap((way) =>
          way.steps.flatMap(({ start, size: lasts }) => (within(at(start), at(start) + lasts) ? [start] : [])),
        ),
      ),
    ),
  }
}

/** The program with all but what is freed held as it is in a solution, which is also the hint. */
export function neighbourhood(program: PlanProgram, values: readonly number[], freed: Freed): ConstraintModel {
  const lows = [...program.constraints.lows]
  const highs = [...program.constraints.highs]
  const hold = (literal: Literal | undefined): void => {
    if (literal === undefined) return
    const variable = literal >= 0 ? literal : not(literal)
    lows[variable] = values[variable] ?? 0
    highs[variable] = values[variable] ?? 0
  }
  for (const [one, housed] of program.cases.housed.entries())
    if (!freed.cases.has(one)) for (const { when } of housed) hold(when)
  for (const [key, literal] of program.cases.orders)
    if (!key.split(' ').some((one) => freed.cases.has(Number(one)))) hold(literal)
  for (const [index, job] of program.jobs.entries()) {
    const released = freed.releases.has(index)
    if (!released) hold(job.present)
    for (const { one, literal } of released ? [] : job.ended) if (!freed.cases.has(one)) hold(literal)
    for (const { one, literal } of freed.returns.has(index) ? [] : job.after) if (!freed.cases.has(one)) hold(literal)
    for (const { when, steps } of job.ways) {
      if (!released) hold(when)
      for (const { start } of steps)
        if (!freed.steps.has(start))
          for (const { places } of program.loads) for (const each of places.get(start) ?? []) hold(each)
    }
  }
  const constraints = [...program.constraints.constraints, ...heldOrders(program, values, freed)]
  return { ...program.constraints, lows, highs, constraints, hints: new Map(values.entries()) }
}

/** Held cases of one theatre stay in their order. */
function heldOrders(program: PlanProgram, values: readonly number[], freed: Freed): readonly Constraint[] {
  const { day, cases } = program
  return day.theatres.flatMap((_, theatre) => {
    const held = day.model.cases
      .flatMap((facts, one) =>
        !freed.cases.has(one) && theatreOf(program, values, one) === theatre
          ? [{ facts, start: cases.starts[one] ?? 0 }]
          : [],
      )
      .toSorted((a, b) => (values[a.start] ?? 0) - (values[b.start] ?? 0))
    return held.slice(1).flatMap((next, index): readonly Constraint[] => {
      const before = held[index]
      if (before === undefined) return []
      const terms = [[next.start, 1] as const, [before.start, -1] as const]
      return [{ kind: 'linear', terms, low: before.facts.dur + before.facts.turnover, high: unlimited, when: [] }]
    })
  })
}

function theatreOf({ cases }: PlanProgram, values: readonly number[], one: number): number {
  return cases.housed[one]?.find(({ when }) => when === undefined || values[when] === 1)?.theatre ?? -1
}
