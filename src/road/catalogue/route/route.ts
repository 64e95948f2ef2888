import type { Finding } from '../../finding.ts'
import { type Contact, contactOf, contacts } from '../attributes.ts'
import { type Method, methodFacts } from '../methods.ts'
import { contactClasses, intendedUse, makersWord, peroxideTimes, steamPreferred } from '../sources.ts'
import type { MethodOffer, RouteAsk, RouteDevice } from './ask.ts'
import { makerListsUnoffered, type UnofferedAnswer } from './maker-lists-unoffered.ts'
import { prionWay } from './prion-way.ts'
import type { RouteFound } from './route-rule.ts'
import { routeRules } from './route-rules.ts'

/** One method before one device: open, closed, or waiting for something that nobody has stated. */
export interface MethodAnswer {
  readonly offer: MethodOffer
  readonly standing: 'allowed' | 'barred' | 'held'
  readonly reasons: readonly Finding[]
}

export type RouteDecision =
  | { readonly kind: 'go'; readonly offer: MethodOffer; readonly why: Finding }
  /** Nothing is open, or something must be found out first. */
  | { readonly kind: 'hold'; readonly why: Finding }
  | { readonly kind: 'doNotReprocess'; readonly why: Finding }
  | { readonly kind: 'discard'; readonly why: Finding }

export interface Route {
  readonly contact: Contact
  readonly contactWhy: Finding
  readonly methods: readonly MethodAnswer[]
  /** What the maker lists and there is no programme for. */
  readonly unoffered: readonly UnofferedAnswer[]
  readonly decision: RouteDecision
}

/** The way of one device: each method with its reasons, and the one to take. */
export function routeOf(device: RouteDevice, ask: RouteAsk): Route {
  const contact = contactFor(device, ask)
  const methods = ask.offers.map((offer) => answerFor(device, ask, offer, contact))
  return {
    contact,
    contactWhy: contactReason(device, ask, contact),
    methods,
    unoffered: makerListsUnoffered(device),
    decision: decide(device, ask, contact, methods),
  }
}

type Asked = Pick<RouteAsk, 'site' | 'contact' | 'use'>
const strictest = (classes: readonly Contact[]): Contact =>
  contacts.find((each) => classes.includes(each)) ?? 'critical'

/** By where it goes this time, or the use that is named; else the strictest of all that it is registered for. */
export function contactFor(device: Pick<RouteDevice, 'contact' | 'uses'>, ask: Asked): Contact {
  if (ask.site !== undefined) return contactOf(ask.site)
  const use = useNamed(device, ask)
  if (use !== undefined) return contactOf(use.site)
  if (ask.contact !== undefined) return ask.contact
  return strictest([device.contact, ...(device.uses ?? []).map(({ site }) => contactOf(site))])
}

function useNamed(device: Pick<RouteDevice, 'uses'>, ask: Asked) {
  return ask.use === undefined ? undefined : device.uses?.find((each) => each.use === ask.use)
}

/** The answer for each use that a device is registered for, in the order in which they are registered. */
export function routesByUse(
  device: RouteDevice,
  ask: RouteAsk,
): readonly { readonly use: string; readonly route: Route }[] {
  const { site: _site, contact: _contact, ...rest } = ask
  return (device.uses ?? []).map(({ use }) => ({ use, route: routeOf(device, { ...rest, use }) }))
}

function answerFor(device: RouteDevice, ask: RouteAsk, offer: MethodOffer, contact: Contact): MethodAnswer {
  const crossing = { device, ask, offer, contact, facts: methodFacts[offer.method] }
  const reasons = routeRules.flatMap((rule) => rule.check(crossing).map((found) => ({ rule: rule.id, ...found })))
  const standing = reasons.some((reason) => reason.weight === 'stop')
    ? 'barred'
    : reasons.some((reason) => reason.weight === 'notEvaluable')
      ? 'held'
      : 'allowed'
  return { offer, standing, reasons }
}

function decide(device: RouteDevice, ask: RouteAsk, contact: Contact, methods: readonly MethodAnswer[]): RouteDecision {
  if (device.singleUse && device.licensedRoute === undefined) {
    const why = methods.flatMap((each) => each.reasons).find((reason) => reason.rule === 'single-use')
    return {
      kind: 'doNotReprocess',
      why: why ?? finding({ weight: 'stop', says: 'For one use only.', source: contactClasses }),
    }
  }
  const { way, because } = prionWay(ask.prion, contact, device.cleanable)
  if (way === 'discard') return { kind: 'discard', why: { rule: 'prion', ...because } }
  if (way === 'quarantine') return { kind: 'hold', why: { rule: 'prion', ...because } }
  const open = methods.filter((each) => each.standing === 'allowed').toSorted(byPreference(contact))
  const [first] = open
  if (first === undefined) return { kind: 'hold', why: nothingOpen(methods, makerListsUnoffered(device)) }
  return { kind: 'go', offer: first.offer, why: whyThis(first.offer.method) }
}

/** Sterile before disinfected, stored before used at once, steam before all, then the shortest. */
export function byPreference(contact: Contact) {
  return (a: MethodAnswer, b: MethodAnswer): number => rank(a, contact) - rank(b, contact)
}

function rank({ offer }: MethodAnswer, contact: Contact): number {
  const { kills, stored, minutes } = methodFacts[offer.method]
  if (offer.method === 'steam') return 0
  const sterile = kills === 'sterile' || contact === 'nonCritical' ? 0 : 100_000
  return minutes + (stored ? 0 : 10_000) + sterile
}

function whyThis(method: Method): Finding {
  if (method === 'steam') {
    return finding({ weight: 'note', says: 'It bears heat and moisture: steam comes first.', source: steamPreferred })
  }
  const { name, minutes, source } = methodFacts[method]
  const says = `${name} is the quickest of the methods that are open, aeration included.`
  return finding({
    weight: 'note',
    says,
    measured: `about ${minutes} min`,
    source: method === 'hydrogenPeroxide' ? peroxideTimes : source,
  })
}

function nothingOpen(methods: readonly MethodAnswer[], unoffered: readonly UnofferedAnswer[]): Finding {
  const [listed] = unoffered
  // A maker who lists nothing that can be run here has given instructions: there is nothing more to be found out.
  if (listed !== undefined && !methods.some(isListed)) return listed.reason
  const silent = (each: MethodAnswer) =>
    each.reasons.some((reason) => reason.rule === 'makers-list' && reason.weight === 'notEvaluable')
  if (methods.length > 0 && methods.every(silent)) {
    const says = 'No instructions for use on file. Get them from the maker and register what they allow.'
    return finding({ weight: 'notEvaluable', says, source: makersWord })
  }
  const held = methods.filter((each) => each.standing === 'held').map((each) => methodFacts[each.offer.method].name)
  const says =
    held.length === 0
      ? 'No method is open to it. Do not use it; ask the maker, or buy what can be sterilised here.'
      : `No method is open yet. Find out what is missing for: ${held.join(', ')}.`
  const source = methods.flatMap((each) => each.reasons).find((reason) => reason.weight === 'notEvaluable')?.source
  return finding({ weight: held.length === 0 ? 'stop' : 'notEvaluable', says, source: source ?? contactClasses })
}

/** Whether the maker lists the method of an answer, whatever else stands against it. */
function isListed({ reasons }: MethodAnswer): boolean {
  return reasons.some(({ rule, weight }) => rule === 'makers-list' && weight === 'note')
}

function contactReason(device: RouteDevice, ask: RouteAsk, contact: Contact): Finding {
  const says = { critical: 'Critical', semiCritical: 'Semi-critical', nonCritical: 'Non-critical' }[contact]
  const note = (why: string, source = intendedUse) => finding({ weight: 'note', says: `${says}, ${why}.`, source })
  if (ask.site !== undefined) return note('by where it goes this time')
  if (ask.use !== undefined && useNamed(device, ask) === undefined) {
    const why = `${says}, the strictest: it is not registered for "${ask.use}". Register that use, or choose another.`
    return finding({ weight: 'caution', says: why, source: intendedUse })
  }
  if (ask.use !== undefined) return note(`by its use: ${ask.use}`)
  if (ask.contact !== undefined) return note('as asked')
  const uses = device.uses ?? []
  if (uses.length === 0) return note('as registered', contactClasses)
  return note(`the strictest of what it is registered for: ${uses.map(({ use }) => use).join(', ')}`)
}

function finding(found: RouteFound): Finding {
  return { rule: 'route', ...found }
}
