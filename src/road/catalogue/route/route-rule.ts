import type { Finding } from '../../finding.ts'
import type { Contact } from '../attributes.ts'
import type { MethodFacts } from '../methods.ts'
import type { MethodOffer, RouteAsk, RouteDevice } from './ask.ts'

/** One device before one method. */
export interface Crossing {
  readonly device: RouteDevice
  readonly ask: RouteAsk
  readonly offer: MethodOffer
  readonly facts: MethodFacts
  readonly contact: Contact
}

export type RouteFound = Omit<Finding, 'rule'>

/** One reason for or against a method. `stop` bars it, `notEvaluable` holds it, the rest is said. */
export interface RouteRule {
  readonly id: string
  readonly says: string
  readonly check: (crossing: Crossing) => readonly RouteFound[]
}

export function defineRouteRule(rule: RouteRule): RouteRule {
  return Object.freeze(rule)
}

/** Shortens the commonest form of a rule: one reason when something is so. */
export function found(when: boolean, reason: RouteFound): readonly RouteFound[] {
  return when ? [reason] : []
}
