import type { PlanInstance } from '#workings/planning/instance.ts'
import { type Method, methodFacts } from '../catalogue/methods.ts'
import type { Finding } from '../finding.ts'
import { aerationHours } from '../gases/aeration.ts'
import { methodOf } from '../sterilising/method-of.ts'
import type { BathOfDay } from './bath-of-offers.ts'
import { minutesOfClock } from './day-clock.ts'
import type { DayFacts } from './day-facts.ts'
import { byDefault, lineHours, staffOf } from './hours-of-unit.ts'
import { apartMinutes, coolMinutes, handWashMinutes, packMinutes, soakMinutes } from './limits.ts'
import { steriliserPlaces, washerMinutes, washerPlaces } from './limits.ts'
import { planningDefaults } from './sources.ts'

type Pool = PlanInstance['pools'][number]
type Step = PlanInstance['routes'][string][number]

/** What a unit has to make used sets sterile, as the planner sees it. */
export interface LineOfUnit {
  readonly pools: readonly Pool[]
  /** Pools that sterilise, by method. */
  readonly byMethod: ReadonlyMap<Method, readonly string[]>
  /** The steps of a set that goes by a pool that sterilises. */
  readonly stepsBy: (method: Method, pool: string, implantHours: number | null) => readonly Step[]
  /** The steps of a set that is treated in a bath for use at once. */
  readonly stepsInBath: (bath: Omit<BathOfDay, 'notes' | 'routeBy'>) => readonly Step[]
  readonly notes: readonly Finding[]
}

type Facts = Pick<DayFacts, 'policy' | 'unit' | 'machines' | 'runs'>

/** Pools of the line from the machines in service and the staff, each with its hours, places and minutes. */
export function lineOfUnit(facts: Facts): LineOfUnit {
  const washRoom = staffOf(facts, 'washRoom')
  const packing = staffOf(facts, 'packing')
  const able = facts.machines.filter((machine) => machine.service.state === 'inService')
  const washers = able.filter(({ type }) => type === 'washer').map((machine) => poolOf(facts, machine))
  const sterilisers = able.flatMap((machine) => {
    const method = methodOf(machine)
    return method === undefined ? [] : [{ method, ...poolOf(facts, machine) }]
  })
  const [washer] = merged(washers.map(({ pool }) => pool))
  const byMethod = new Map<Method, readonly string[]>()
  const pools: Pool[] = [
    { id: 'wash room', kind: 'staff', count: washRoom.count, from: washRoom.from, to: washRoom.to },
    { id: 'packing', kind: 'staff', count: packing.count, from: packing.from, to: packing.to },
    ...(washer === undefined ? [] : [washer]),
  ]
  for (const method of new Set(sterilisers.map((each) => each.method))) {
    const own = merged(sterilisers.filter((each) => each.method === method).map(({ pool }) => pool))
    byMethod.set(
      method,
      own.map(({ id }) => id),
    )
    pools.push(...own)
  }
  const withdrawn = facts.machines.filter((machine) => machine.service.state === 'withdrawn')
  return {
    pools,
    byMethod,
    ...stepsOf(facts, washer),
    notes: [
      ...washRoom.notes,
      ...packing.notes,
      ...[...washers, ...sterilisers].flatMap(({ notes }) => notes),
      ...withdrawn.map(({ name, service }) => ({
        rule: 'plan-machine-out',
        weight: 'caution' as const,
        says: `${name} is out of service and is not planned with: ${service.why}`,
        source: planningDefaults,
      })),
    ],
  }
}

function poolOf(
  facts: Facts,
  machine: Facts['machines'][number],
): { readonly pool: Pool; readonly notes: readonly Finding[] } {
  const { policy } = facts
  const own = facts.unit.hours?.[machine.id]
  const set = own?.kind === 'machine' ? own : undefined
  const run = facts.runs.get(machine.id)
  const washer = machine.type === 'washer'
  const cap = set?.places ?? run?.places ?? policy.limit(washer ? washerPlaces : steriliserPlaces).value
  const dur = set?.runMinutes ?? run?.minutes ?? defaultRun(facts, machine)
  const hours = set === undefined ? lineHours(facts) : { from: minutesOfClock(set.from), to: minutesOfClock(set.to) }
  const missing = [
    ...(set === undefined ? ['hours'] : []),
    ...(set?.places === undefined && run === undefined ? ['places'] : []),
    ...(set?.runMinutes === undefined && (run?.minutes ?? null) === null ? ['minutes of a run'] : []),
  ]
  return {
    pool: {
      id: machine.name.slice(0, 64),
      kind: 'batch',
      count: 1,
      cap: Math.max(1, cap),
      dur: Math.max(1, dur),
      ...hours,
    },
    notes: missing.length === 0 ? [] : [byDefault(`${machine.name}: ${missing.join(', ')}`, planningDefaults)],
  }
}

function defaultRun({ policy }: Facts, machine: Facts['machines'][number]): number {
  const method = methodOf(machine)
  if (method === undefined) return policy.limit(washerMinutes).value
  const { minutes } = methodFacts[method]
  // The usual time of ethylene oxide counts its aeration, which is a step of its own here.
  return method === 'ethyleneOxide'
    ? Math.max(60, minutes - Math.round((aerationHours(60, policy) ?? 0) * 60))
    : minutes
}

/** Machines that are alike are one pool: which of them runs makes no difference to the plan. */
function merged(pools: readonly Pool[]): readonly Pool[] {
  const alike = new Map<string, Pool>()
  for (const pool of pools) {
    const key = `${pool.cap} ${pool.dur} ${pool.from} ${pool.to}`
    const before = alike.get(key)
    alike.set(
      key,
      before === undefined
        ? pool
        : { ...before, id: `${before.id}, ${pool.id}`.slice(0, 64), count: before.count + pool.count },
    )
  }
  return [...alike.values()]
}

function stepsOf({ policy }: Facts, washer: Pool | undefined): Pick<LineOfUnit, 'stepsBy' | 'stepsInBath'> {
  const minutes = (limit: Parameters<typeof policy.limit<number>>[0]): number => policy.limit(limit).value
  const wash: readonly Step[] =
    washer === undefined
      ? [{ name: 'wash by hand', kind: 'staff', pool: 'wash room', dur: minutes(handWashMinutes) }]
      : [
          { name: 'take apart', kind: 'staff', pool: 'wash room', dur: minutes(apartMinutes) },
          { name: 'wash', kind: 'batch', pool: washer.id },
        ]
  const cleaned: readonly Step[] = [{ name: 'soak', kind: 'delay', dur: minutes(soakMinutes) }, ...wash]
  const inspected = (name: string): Step => ({ name, kind: 'staff', pool: 'packing', dur: minutes(packMinutes) })
  const stepsInBath: LineOfUnit['stepsInBath'] = (bath) => [
    ...cleaned,
    inspected('inspect'),
    { name: 'immerse', kind: 'staff', pool: bath.pool.id, dur: bath.contactMinutes },
    { name: 'rinse', kind: 'delay', dur: bath.rinseMinutes },
  ]
  const stepsBy: LineOfUnit['stepsBy'] = (method, pool, implantHours) => [
    ...cleaned,
    inspected(methodFacts[method].stored ? 'inspect and pack' : 'inspect'),
    { name: 'sterilise', kind: 'batch', pool },
    ...(method === 'ethyleneOxide'
      ? [{ name: 'aerate', kind: 'delay' as const, dur: Math.round((aerationHours(60, policy) ?? 0) * 60) }]
      : []),
    ...(methodFacts[method].stored
      ? [{ name: 'cool and store', kind: 'delay' as const, dur: minutes(coolMinutes) }]
      : []),
    ...(implantHours === null
      ? []
      : [{ name: 'wait for the indicator', kind: 'delay' as const, dur: Math.round(implantHours * 60) }]),
  ]
  return { stepsBy, stepsInBath }
}
