import type { Method } from '../catalogue/methods.ts'
import { methodFacts } from '../catalogue/methods.ts'
import { hldForLaparoscope } from '../catalogue/limits.ts'
import { offersOfUnit } from '../catalogue/offers-of-unit.ts'
import type { MethodOffer } from '../catalogue/route/ask.ts'
import type { MethodAnswer } from '../catalogue/route/route.ts'
import { routeOfSet, type SetMember, type SetRoute } from '../catalogue/route/set-route.ts'
import { makersWord, methodTable } from '../catalogue/sources.ts'
import type { Finding } from '../finding.ts'
import { methodOf } from '../sterilising/method-of.ts'
import type { DayFacts } from './day-facts.ts'
import type { SetTypeFound } from './set-types.ts'
import { knownOfSets } from './sources.ts'

/** How a type of set is made fit for use again. */
export interface WaysOfType {
  /** The one that is taken; null where none is open. */
  readonly taken: MethodOffer | null
  /** The same method by other means that is allowed to all of it too: a bath of another agent. */
  readonly alike: readonly MethodOffer[]
  /** Whether what comes out of it may be kept. */
  readonly stored: boolean
  /** Methods that are allowed to all of it too, with what the catalogue says of them. */
  readonly others: readonly { readonly method: Method; readonly why: Pick<Finding, 'says' | 'source'> }[]
  readonly notes: readonly Finding[]
}

type Facts = Pick<DayFacts, 'policy' | 'machines' | 'baths' | 'devices'>

/** Sterile for the shelf where that is open to it; else treated for use at once, as in a bath. */
export function waysOfType(facts: Facts, { name, sets }: SetTypeFound): WaysOfType {
  const note = (weight: Finding['weight'], says: string): Finding => ({
    rule: 'plan-way-of-set',
    weight,
    says: `${name}: ${says}`,
    source: weight === 'caution' ? methodTable : knownOfSets,
  })
  const none = (says: string): WaysOfType => ({
    taken: null,
    alike: [],
    stored: false,
    others: [],
    notes: [note('notEvaluable', says)],
  })
  const members = membersOf(facts, sets[0]?.countSheet ?? [])
  if (members === null) return none('a device of its count sheet is not registered.')
  const able = facts.machines.filter(
    (machine) => machine.service.state === 'inService' && methodOf(machine) !== undefined,
  )
  const ask = {
    hldForLaparoscope: facts.policy.limit(hldForLaparoscope).value,
    offers: offersOfUnit(able, facts.baths),
  }
  const forShelf = routeOfSet(members, { ...ask, toStore: true })
  const open = forShelf.decision.kind === 'refuse' ? routeOfSet(members, { ...ask, toStore: false }) : forShelf
  const { decision } = open
  if (decision.kind === 'refuse') return none(decision.why.says)
  if (decision.kind === 'together') {
    const taken = decision.offer
    const { stored } = methodFacts[taken.method]
    return {
      taken,
      alike: alikeOf(open, taken),
      stored,
      others: othersOf(open, taken),
      notes: stored ? [] : [note('caution', atOnce(taken))],
    }
  }
  // What is packed apart is back when its slowest part is; what cannot be stored holds all of it.
  const [slowest] = decision.groups
    .map(({ offer }) => offer)
    .toSorted(
      (a, b) =>
        Number(methodFacts[a.method].stored) - Number(methodFacts[b.method].stored) ||
        methodFacts[b.method].minutes - methodFacts[a.method].minutes,
    )
  if (slowest === undefined) return none(decision.why.says)
  const { stored } = methodFacts[slowest.method]
  const apart = note('caution', 'it is packed apart; planned by the way of its slowest part.')
  const notes = stored ? [apart] : [apart, note('caution', atOnce(slowest))]
  return { taken: slowest, alike: [], stored, others: [], notes }
}

function atOnce({ method }: MethodOffer): string {
  return `its way is ${methodFacts[method].name.toLowerCase()}: treated for use at once before each case, and never stored as sterile.`
}

function membersOf({ devices }: Facts, sheet: SetTypeFound['sets'][number]['countSheet']): readonly SetMember[] | null {
  const members = sheet.flatMap(({ device: id }) => {
    const device = devices.find((each) => each.id === id)
    return device === undefined ? [] : [{ name: device.name, device }]
  })
  return members.length < sheet.length ? null : members
}

function alikeOf({ methods }: SetRoute, taken: MethodOffer): readonly MethodOffer[] {
  return methods.flatMap(({ offer, standing }) =>
    standing === 'allowed' && offer.method === taken.method && offer !== taken ? [offer] : [],
  )
}

function othersOf({ methods }: SetRoute, taken: MethodOffer): WaysOfType['others'] {
  const open = methods.filter(
    ({ offer, standing }) =>
      standing === 'allowed' && offer.method !== taken.method && methodFacts[offer.method].stored,
  )
  const byMethod = new Map(open.map((answer) => [answer.offer.method, answer]))
  return [...byMethod].map(([method, answer]) => ({ method, why: reasonFor(answer) }))
}

function reasonFor({ offer, reasons }: MethodAnswer): Pick<Finding, 'says' | 'source'> {
  const [first] = reasons
  const name = methodFacts[offer.method].name
  return first === undefined
    ? { says: `${name} is open to every part of it, as the makers and the catalogue have it.`, source: makersWord }
    : { says: `${name} is open to every part of it. ${first.says}`, source: first.source }
}
