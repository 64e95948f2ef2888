import type { PlanInstance } from '#workings/planning/instance.ts'
import { type Method, methodFacts } from '../catalogue/methods.ts'
import { offersOfUnit } from '../catalogue/offers-of-unit.ts'
import { routeOfSet } from '../catalogue/route/set-route.ts'
import { hldForLaparoscope } from '../catalogue/limits.ts'
import type { Finding } from '../finding.ts'
import { biologicalIndicators } from '../sterilising/biological-indicators.ts'
import { methodOf } from '../sterilising/method-of.ts'
import type { DayFacts } from './day-facts.ts'
import type { LineOfUnit } from './line-of-unit.ts'
import { knownOfSets } from './sources.ts'
import type { SetTypeFound } from './set-types.ts'

type Routes = PlanInstance['routes']

/** A way that never ends within a day: a set that nothing is open to serves once. */
const closed = { name: 'no way is open', kind: 'delay', dur: 20_160 } as const

/** The ways of one type of set by the catalogue: the method decided for it, on each pool of machines that runs it. */
export function routesOfType(
  facts: Pick<DayFacts, 'policy' | 'machines' | 'baths' | 'devices' | 'rounds'>,
  type: SetTypeFound,
  line: LineOfUnit,
): { readonly routes: Routes; readonly notes: readonly Finding[] } {
  const { method, notes } = methodOfType(facts, type)
  const implant = facts.rounds.some(
    (round) => round.sealed?.implant === true && type.sets.some((set) => set.id === round.set),
  )
  const pools = method === null ? [] : (line.byMethod.get(method) ?? [])
  if (method === null || pools.length === 0) {
    const says = `${type.name}: no way of the unit makes it sterile for the shelf as things stand; each set serves once.`
    return {
      routes: { [`${type.name}: none`.slice(0, 64)]: [closed] },
      notes: [...notes, { rule: 'plan-no-way', weight: 'notEvaluable', says, source: knownOfSets }],
    }
  }
  const hours = implant ? incubation(facts, method) : null
  const entries = pools.map(
    (pool) =>
      [
        `${methodFacts[method].name}, ${pool}${implant ? ', implant' : ''}`.slice(0, 64),
        line.stepsBy(method, pool, hours),
      ] as const,
  )
  return { routes: Object.fromEntries(entries.map(([id, steps]) => [id, [...steps]])), notes }
}

function incubation({ policy }: Pick<DayFacts, 'policy'>, method: Method): number {
  const chamber =
    method === 'bathSterilise' || method === 'bathDisinfect' || method === 'peraceticLiquid' ? 'steam' : method
  return policy.limit(biologicalIndicators[chamber].hours).value
}

function methodOfType(
  facts: Parameters<typeof routesOfType>[0],
  { name, sets }: SetTypeFound,
): { readonly method: Method | null; readonly notes: readonly Finding[] } {
  const able = facts.machines.filter(
    (machine) => machine.service.state === 'inService' && methodOf(machine) !== undefined,
  )
  const sheet = sets[0]?.countSheet ?? []
  const members = sheet.flatMap(({ device: id }) => {
    const device = facts.devices.find((each) => each.id === id)
    return device === undefined ? [] : [{ name: device.name, device }]
  })
  const note = (weight: Finding['weight'], says: string): Finding => ({
    rule: 'plan-way-of-set',
    weight,
    says: `${name}: ${says}`,
    source: knownOfSets,
  })
  if (members.length < sheet.length)
    return { method: null, notes: [note('notEvaluable', 'a device of its count sheet is not registered.')] }
  const { decision } = routeOfSet(members, {
    toStore: true,
    hldForLaparoscope: facts.policy.limit(hldForLaparoscope).value,
    offers: offersOfUnit(able, facts.baths),
  })
  if (decision.kind === 'together') return { method: decision.offer.method, notes: [] }
  if (decision.kind === 'refuse') return { method: null, notes: [note('notEvaluable', decision.why.says)] }
  const slowest = decision.groups
    .map(({ offer }) => offer.method)
    .filter((method) => methodFacts[method].stored)
    .toSorted((a, b) => methodFacts[b].minutes - methodFacts[a].minutes)[0]
  return {
    method: slowest ?? null,
    notes: [note('caution', 'it is packed apart; planned by the way of its slowest part.')],
  }
}
