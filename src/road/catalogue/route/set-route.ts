import type { Finding } from '../../finding.ts'
import { methodFacts } from '../methods.ts'
import { makersWord } from '../sources.ts'
import type { MethodOffer, RouteAsk, RouteDevice } from './ask.ts'
import { byPreference, type MethodAnswer, type Route, routeOf } from './route.ts'

export interface SetMember {
  readonly name: string
  readonly device: RouteDevice
  /** Cycles done by the one of its items that did most; left out where they are not counted. */
  readonly cyclesDone?: number
}

export interface SetRoute {
  readonly members: readonly { readonly name: string; readonly route: Route }[]
  /** Each method for the set as a whole: closed when it is closed to one device. */
  readonly methods: readonly MethodAnswer[]
  readonly decision: SetDecision
}

export type SetDecision =
  | { readonly kind: 'together'; readonly offer: MethodOffer; readonly why: Finding }
  /** No one method is open to all; each part goes its own way. */
  | { readonly kind: 'split'; readonly groups: readonly Group[]; readonly why: Finding }
  | { readonly kind: 'refuse'; readonly stuck: readonly string[]; readonly why: Finding }

export interface Group {
  readonly offer: MethodOffer
  readonly names: readonly string[]
}

/** The way of a whole set. */
export function routeOfSet(members: readonly SetMember[], ask: RouteAsk): SetRoute {
  const routes = members.map(({ name, device, cyclesDone }) => ({
    name,
    route: routeOf(device, cyclesDone === undefined ? ask : { ...ask, cyclesDone }),
  }))
  const methods = ask.offers.map((offer, place) => together(offer, place, routes))
  return { members: routes, methods, decision: decide(routes, methods) }
}

type Routed = SetRoute['members'][number]

function together(offer: MethodOffer, place: number, routes: readonly Routed[]): MethodAnswer {
  const answers = routes.flatMap(({ name, route }) => {
    const answer = route.methods[place]
    return answer === undefined ? [] : [{ name, answer }]
  })
  const standing = answers.some(({ answer }) => answer.standing === 'barred')
    ? 'barred'
    : answers.some(({ answer }) => answer.standing === 'held')
      ? 'held'
      : 'allowed'
  const weights = standing === 'barred' ? ['stop'] : standing === 'held' ? ['notEvaluable'] : ['caution', 'note']
  const reasons = answers.flatMap(({ name, answer }) =>
    answer.reasons
      .filter((reason) => weights.includes(reason.weight))
      .map((reason) => ({ ...reason, says: `${name}: ${reason.says}` })),
  )
  return { offer, standing, reasons }
}

function decide(routes: readonly Routed[], methods: readonly MethodAnswer[]): SetDecision {
  const stuck = routes.filter(({ route }) => route.decision.kind !== 'go').map(({ name }) => name)
  if (stuck.length > 0 || routes.length === 0) {
    const says =
      routes.length === 0
        ? 'The count sheet is empty.'
        : `No way is open to ${stuck.join(', ')}. The set does not go until that is settled, or it is taken out.`
    const open = routes.find(({ route }) => route.decision.kind !== 'go')
    return { kind: 'refuse', stuck, why: finding('stop', says, open?.route.decision.why.source) }
  }
  const contact = routes.some(({ route }) => route.contact === 'critical') ? 'critical' : 'semiCritical'
  const [first] = methods.filter((each) => each.standing === 'allowed').toSorted(byPreference(contact))
  // A set goes together only where no part of it would have to leave a better way of its own: steam first.
  const groups = grouped(routes)
  if (first !== undefined && (groups.length === 1 || first.offer.method === groups[0]?.offer.method)) {
    return {
      kind: 'together',
      offer: first.offer,
      why: finding('note', `All of it goes by ${methodFacts[first.offer.method].name}.`),
    }
  }
  if (first !== undefined) {
    const says = `All of it may go by ${methodFacts[first.offer.method].name}. Parts that bear steam would be better packed apart: ${groups.map(spoken).join('; ')}.`
    return { kind: 'together', offer: first.offer, why: finding('caution', says) }
  }
  return {
    kind: 'split',
    groups,
    why: finding('stop', `No one method is open to all of it. Pack apart: ${groups.map(spoken).join('; ')}.`),
  }
}

function spoken({ offer, names }: Group): string {
  return `${methodFacts[offer.method].name}: ${names.join(', ')}`
}

function grouped(routes: readonly Routed[]): readonly Group[] {
  const groups = new Map<MethodOffer, string[]>()
  for (const { name, route } of routes) {
    if (route.decision.kind !== 'go') continue
    groups.set(route.decision.offer, [...(groups.get(route.decision.offer) ?? []), name])
  }
  return [...groups].map(([offer, names]) => ({ offer, names }))
}

function finding(weight: Finding['weight'], says: string, source = makersWord): Finding {
  return { rule: 'route-of-set', weight, says, source }
}
