import { type PlanInstance, type PlanSetType, turnoverAfter } from './instance.ts'
import type { PlanRun, PlanSchedule, PlanUse } from './plan-schedule.ts'

/**
 * Whether a schedule keeps every rule of the day, checked from the schedule alone and by no code that made it. Gives what is
 * broken, in words; an empty list is a sound plan.
 */
export function checkPlan(day: PlanInstance, schedule: PlanSchedule): readonly string[] {
  return [...checkCases(day, schedule), ...checkUses(day, schedule), ...checkLine(day, schedule)]
}

function checkCases(day: PlanInstance, { cases }: PlanSchedule): readonly string[] {
  const broken: string[] = []
  const placed = day.cases.flatMap((one) => {
    const at = cases[one.id]
    if (at === undefined) {
      broken.push(`${one.id} is not on the list`)
      return []
    }
    return [{ one, ...at, end: at.start + one.dur }]
  })
  for (const { one, theatre: name, start, end } of placed) {
    const theatre = day.theatres.find(({ id }) => id === name)
    if (theatre === undefined || !one.theatres.includes(name)) broken.push(`${one.id} may not be in ${name}`)
    else if (start < theatre.open || end > theatre.hardClose) broken.push(`${one.id} lies outside the hours of ${name}`)
    if (start < (one.earliest ?? 0)) broken.push(`${one.id} starts before its earliest time`)
    if (one.latest !== undefined && start > one.latest) broken.push(`${one.id} starts after its latest time`)
    if (!Number.isInteger(start)) broken.push(`${one.id} starts at no whole minute`)
  }
  for (const [index, a] of placed.entries()) {
    for (const b of placed.slice(index + 1)) {
      const [first, second] = a.start <= b.start ? [a, b] : [b, a]
      if (a.theatre === b.theatre && second.start < first.end + turnoverAfter(first.one, day))
        broken.push(`${first.one.id} and ${second.one.id} are too close in ${a.theatre}`)
      if (a.one.surgeon === b.one.surgeon && second.start < first.end + day.surgeonGap)
        broken.push(`${a.one.surgeon} is in ${first.one.id} and ${second.one.id} at once`)
    }
  }
  return broken
}

function checkUses(day: PlanInstance, { cases, uses }: PlanSchedule): readonly string[] {
  const broken: string[] = []
  for (const one of day.cases) {
    for (const [type, wanted] of Object.entries(one.needs)) {
      const own = uses.filter((use) => use.case === one.id && use.type === type)
      if (own.length !== wanted) broken.push(`${one.id} has ${own.length} of ${wanted} ${type}`)
    }
  }
  for (const type of day.setTypes) {
    for (let unit = 0; unit < type.units; unit += 1) {
      const own = uses
        .filter((use) => use.type === type.id && use.unit === unit)
        .map((use) => ({ use, start: cases[use.case]?.start ?? Number.NaN }))
        .sort((a, b) => a.start - b.start)
      let sterile = type.avail?.[unit] ?? 0
      for (const [index, { use, start }] of own.entries()) {
        if (sterile + type.lead > start) broken.push(`${type.id} ${unit} is not there in time for ${use.case}`)
        if (index > 0 && type.keeps !== undefined && start - sterile > type.keeps)
          broken.push(
            `${type.id} ${unit} lies ${start - sterile} min before ${use.case}, and keeps for ${type.keeps} min`,
          )
        if (use.job === undefined) {
          if (index < own.length - 1)
            broken.push(`${type.id} ${unit} serves again after ${use.case} without being made sterile`)
        } else sterile = use.job.ready
      }
    }
    if (uses.some((use) => use.type === type.id && (use.unit < 0 || use.unit >= type.units)))
      broken.push(`a unit of ${type.id} is used that is not there`)
  }
  return broken
}

function checkLine(day: PlanInstance, schedule: PlanSchedule): readonly string[] {
  const broken: string[] = []
  const runs: { readonly run: PlanRun; readonly size: number }[] = []
  for (const use of schedule.uses) {
    if (use.job === undefined) continue
    const type = day.setTypes.find(({ id }) => id === use.type)
    const one = day.cases.find(({ id }) => id === use.case)
    const started = schedule.cases[use.case]?.start
    if (type === undefined || one === undefined || started === undefined) continue
    broken.push(...checkJob(day, type, use, started + one.dur))
    for (const run of use.job.steps) runs.push({ run, size: type.size })
  }
  for (const pool of day.pools) {
    const own = runs.filter(({ run }) => run.pool === pool.id)
    for (const { run } of own)
      if (run.start < pool.from || run.end > pool.to) broken.push(`${run.name} lies outside the hours of ${pool.id}`)
    if (pool.kind === 'staff') {
      for (const { run } of own)
        if (own.filter((other) => other.run.start <= run.start && run.start < other.run.end).length > pool.count)
          broken.push(`more than ${pool.count} at ${pool.id} at minute ${run.start}`)
    } else broken.push(...checkBatches(pool.id, pool.count, pool.cap ?? 0, own))
  }
  return broken
}

function checkJob(day: PlanInstance, type: PlanSetType, use: PlanUse, ended: number): readonly string[] {
  const { job } = use
  if (job === undefined) return []
  const name = `${type.id} after ${use.case}`
  const route = day.routes[job.route]
  if (route === undefined || !type.routes.includes(job.route)) return [`${name} takes a way that it may not`]
  if (route.length !== job.steps.length) return [`${name} leaves out a step`]
  const broken: string[] = []
  let at = ended
  for (const [index, step] of route.entries()) {
    const run = job.steps[index]
    if (run === undefined || run.name !== step.name) return [`${name} takes its steps in another order`]
    const wanted = step.kind === 'batch' ? day.pools.find(({ id }) => id === step.pool)?.dur : step.dur
    if (run.start < at) broken.push(`${name}: ${step.name} begins before the step before it ends`)
    if (run.end - run.start !== wanted) broken.push(`${name}: ${step.name} does not take its ${wanted} minutes`)
    if (step.kind !== 'delay' && run.pool !== step.pool) broken.push(`${name}: ${step.name} is not at ${step.pool}`)
    at = run.end
  }
  if (job.ready < at) broken.push(`${name} is said to be ready before its last step ends`)
  return broken
}

function checkBatches(
  pool: string,
  count: number,
  cap: number,
  own: readonly { readonly run: PlanRun; readonly size: number }[],
): readonly string[] {
  const broken: string[] = []
  const batches = new Map<string, { start: number; end: number; machine: number; places: number }>()
  for (const { run, size } of own) {
    const machine = run.machine ?? -1
    if (machine < 0 || machine >= count) broken.push(`${pool} has no machine ${machine}`)
    const key = `${machine} ${run.start}`
    const batch = batches.get(key) ?? { start: run.start, end: run.end, machine, places: 0 }
    batches.set(key, { ...batch, places: batch.places + size })
  }
  for (const batch of batches.values()) {
    if (batch.places > cap) broken.push(`${pool} ${batch.machine} holds more than ${cap} at minute ${batch.start}`)
    for (const other of batches.values())
      if (other !== batch && other.machine === batch.machine && other.start >= batch.start && other.start < batch.end)
        broken.push(`${pool} ${batch.machine} runs twice at minute ${other.start}`)
  }
  return broken
}
