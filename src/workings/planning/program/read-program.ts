import type { PlanRun, PlanSchedule, PlanUse } from '../plan-schedule.ts'
import { treatedLate } from '../treat-late.ts'
import type { PlanProgram } from './plan-program.ts'

/** Writes a solution down as a schedule: names units and machines, each first free first taken. */
export function readProgram(program: PlanProgram, values: readonly number[]): PlanSchedule {
  const { day } = program
  const at = (variable: number): number => (values[variable] ?? 0) * day.step
  const names = day.model.day
  const placed = names.cases.map((one, index) => {
    const theatre =
      program.cases.housed[index]?.find(({ when }) => when === undefined || values[when] === 1)?.theatre ?? 0
    return {
      id: one.id,
      theatre: names.theatres[theatre]?.id ?? '',
      start: at(program.cases.starts[index] ?? 0),
      dur: one.dur,
    }
  })
  const jobs = readJobs(program, values)
  const uses = names.setTypes.flatMap((type, index) => {
    const own = jobs.filter((job) => job.type === index)
    const users = names.cases.flatMap((one, place) =>
      Array.from({ length: one.needs[type.id] ?? 0 }, () => placed[place]).flatMap((each) =>
        each === undefined ? [] : [each],
      ),
    )
    return usesOf(type.id, type.avail ?? Array.from({ length: type.units }, () => 0), users, own)
  })
  const cases = Object.fromEntries(placed.map(({ id, theatre, start }) => [id, { theatre, start }]))
  return treatedLate(names, { cases, uses })
}

interface ReadJob {
  readonly type: number
  readonly release: number
  readonly job: NonNullable<PlanUse['job']>
}

function readJobs(program: PlanProgram, values: readonly number[]): readonly ReadJob[] {
  const { day } = program
  const names = day.model.day
  const machines = machinesOf(program, values)
  return program.jobs.flatMap(({ type, present, release, ways }) => {
    if (present !== undefined && values[present] !== 1) return []
    const way = ways.find(({ when }) => when === undefined || values[when] === 1)
    const route = names.setTypes[type]?.routes[way?.route ?? 0] ?? ''
    const released = (values[release] ?? 0) * day.step
    let free = released
    const steps = (names.routes[route] ?? []).map((step, place): PlanRun => {
      const own = way?.steps.find((each) => each.place === place)
      const start = own === undefined ? free : (values[own.start] ?? 0) * day.step
      const pool = names.pools[own?.pool ?? -1]
      const end = start + (step.kind === 'batch' ? (pool?.dur ?? 0) : (step.dur ?? 0))
      free = end
      if (own === undefined) return { name: step.name, start, end }
      return { name: step.name, start, end, pool: pool?.id ?? '', machine: machines.get(own.start) ?? 0 }
    })
    return [{ type, release: released, job: { route, steps, ready: free } }]
  })
}

/** Which of its pool each step has: runs that begin together share a machine only in a batch pool, by its loads. */
function machinesOf(program: PlanProgram, values: readonly number[]): ReadonlyMap<number, number> {
  const machines = new Map<number, number>()
  const all = program.jobs.flatMap(({ ways }) => ways.flatMap(({ steps }) => steps))
  const taken = all.filter(({ when }) => when === undefined || values[when] === 1)
  for (const [index, pool] of program.day.model.pools.entries()) {
    const own = taken
      .filter((step) => step.pool === index)
      .toSorted((a, b) => (values[a.start] ?? 0) - (values[b.start] ?? 0))
    const free = Array.from({ length: pool.count }, () => Number.NEGATIVE_INFINITY)
    const load = { machine: 0, start: Number.NaN, places: 0 }
    for (const step of own) {
      const start = values[step.start] ?? 0
      if (!pool.batch || load.start !== start || load.places + step.places > pool.cap) {
        load.machine = free.findIndex((until) => until <= start)
        load.start = start
        load.places = 0
        free[load.machine] = start + step.size
      }
      load.places += step.places
      machines.set(step.start, load.machine)
    }
  }
  return machines
}

interface User {
  readonly id: string
  readonly start: number
  readonly dur: number
}

/** First used first into the line; each use takes the unit that has been sterile for the longest time. */
function usesOf(
  type: string,
  avail: readonly number[],
  users: readonly User[],
  jobs: readonly ReadJob[],
): readonly PlanUse[] {
  const ended = users.toSorted((a, b) => a.start + a.dur - b.start - b.dur)
  const after = new Map<User, ReadJob[]>()
  for (const [nth, job] of jobs.toSorted((a, b) => a.release - b.release).entries()) {
    const user = ended[nth]
    if (user !== undefined) after.set(user, [...(after.get(user) ?? []), job])
  }
  const shelf = avail.map((since, unit) => ({ since, unit }))
  return users
    .toSorted((a, b) => a.start - b.start)
    .map((user) => {
      shelf.sort((a, b) => a.since - b.since)
      const unit = shelf.shift()?.unit ?? -1
      const job = after.get(user)?.shift()?.job
      if (job === undefined) return { case: user.id, type, unit }
      shelf.push({ since: job.ready, unit })
      return { case: user.id, type, unit, job }
    })
}
