import type { PlanInstance } from '#workings/planning/instance.ts'
import { usedAtOnceMinutes } from '../baths/limits.ts'
import { type Method, methodFacts } from '../catalogue/methods.ts'
import type { Finding } from '../finding.ts'
import { biologicalIndicators } from '../sterilising/biological-indicators.ts'
import { bathOfOffers } from './bath-of-offers.ts'
import type { DayFacts } from './day-facts.ts'
import type { LineOfUnit } from './line-of-unit.ts'
import { namesWithin } from './names-within.ts'
import { knownOfSets } from './sources.ts'
import type { SetTypeFound } from './set-types.ts'
import { type WaysOfType, waysOfType } from './ways-of-type.ts'

type Routes = PlanInstance['routes']

/** A way that never ends within a day: a set that nothing is open to serves once. */
const closed = { name: 'no way is open', kind: 'delay', dur: 20_160 } as const

export interface RoutesOfType {
  readonly routes: Routes
  /** Ways that it is allowed to take too. */
  readonly others: Routes
  /** Minutes for which it keeps after its way; null for what may be stored. */
  readonly keeps: number | null
  /** Baths that its way goes through. */
  readonly pools: PlanInstance['pools']
  readonly notes: readonly Finding[]
}

type Facts = Pick<DayFacts, 'policy' | 'machines' | 'baths' | 'devices' | 'rounds' | 'day' | 'now' | 'unit'>

/** The ways of one type of set by the catalogue: the method decided for it, on each pool of machines or in each bath that runs it. */
export function routesOfType(facts: Facts, type: SetTypeFound, line: LineOfUnit): RoutesOfType {
  const ways = waysOfType(facts, type)
  const own = takenRoutes(facts, type, line, ways)
  if (own === null) {
    const says = `${type.name}: no way of the unit makes it sterile for the shelf as things stand; each set serves once.`
    return {
      routes: { [`${type.name}: none`.slice(0, 64)]: [closed] },
      others: {},
      keeps: null,
      pools: [],
      notes: [...ways.notes, { rule: 'plan-no-way', weight: 'notEvaluable', says, source: knownOfSets }],
    }
  }
  const others = ways.others.map(({ method, why }) => ({
    why,
    routes: machineRoutes(facts, line, { method, implant: hasImplant(facts, type) }),
  }))
  const open = others.filter(({ routes }) => Object.keys(routes).length > 0)
  return {
    routes: own.routes,
    others: Object.fromEntries(open.flatMap(({ routes }) => Object.entries(routes))),
    keeps: ways.stored ? null : facts.policy.limit(usedAtOnceMinutes).value,
    pools: own.pools,
    notes: [
      ...ways.notes,
      ...own.notes,
      ...open.map(({ why }) => ({
        rule: 'plan-other-way',
        weight: 'note' as const,
        says: `${type.name}: another way is allowed. ${why.says}`,
        source: why.source,
      })),
    ],
  }
}

function takenRoutes(
  facts: Facts,
  type: SetTypeFound,
  line: LineOfUnit,
  { taken, alike, stored }: WaysOfType,
): Pick<RoutesOfType, 'routes' | 'pools' | 'notes'> | null {
  if (taken === null) return null
  const bath = bathOfOffers(facts, [taken, ...alike])
  if (bath !== null)
    return {
      routes: { [bath.routeBy(taken.method)]: [...line.stepsInBath(bath)] },
      pools: [bath.pool],
      notes: bath.notes,
    }
  const routes = machineRoutes(facts, line, { method: taken.method, implant: stored && hasImplant(facts, type) })
  return Object.keys(routes).length === 0 ? null : { routes, pools: [], notes: [] }
}

function machineRoutes(
  facts: Pick<DayFacts, 'policy'>,
  line: LineOfUnit,
  { method, implant }: { readonly method: Method; readonly implant: boolean },
): Routes {
  const hours = implant ? incubation(facts, method) : null
  const pools = line.byMethod.get(method) ?? []
  // The end is kept: the way of an implant is longer than the way of other sets through the same pool.
  const end = implant ? ', implant' : ''
  const names = namesWithin(
    64 - end.length,
    pools.map((pool) => `${methodFacts[method].name}, ${pool}`),
  )
  return Object.fromEntries(
    pools.map((pool, index) => [`${names[index] ?? ''}${end}`, [...line.stepsBy(method, pool, hours)]]),
  )
}

function hasImplant({ rounds }: Pick<DayFacts, 'rounds'>, type: SetTypeFound): boolean {
  return rounds.some((round) => round.sealed?.implant === true && type.sets.some((set) => set.id === round.set))
}

function incubation({ policy }: Pick<DayFacts, 'policy'>, method: Method): number {
  const chamber =
    method === 'bathSterilise' || method === 'bathDisinfect' || method === 'peraceticLiquid' ? 'steam' : method
  return policy.limit(biologicalIndicators[chamber].hours).value
}
