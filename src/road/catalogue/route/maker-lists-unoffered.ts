import type { Finding } from '../../finding.ts'
import { unofferedFacts, type UnofferedMethod } from '../unoffered-methods.ts'
import type { RouteDevice } from './ask.ts'

/** A method that the maker lists and that no unit can run by this program, with why. It is barred, whatever else holds. */
export interface UnofferedAnswer {
  readonly method: UnofferedMethod
  readonly standing: 'barred'
  readonly reason: Finding
}

/** The answer for each method of the maker's list that there is no programme for; empty for most devices. */
export function makerListsUnoffered({ makerOtherMethods = [] }: RouteDevice): readonly UnofferedAnswer[] {
  return makerOtherMethods.map((method) => ({ method, standing: 'barred', reason: reasonAgainst(method) }))
}

export function reasonAgainst(method: UnofferedMethod): Finding {
  const { name, why, source } = unofferedFacts[method]
  return { rule: 'no-programme', weight: 'stop', says: `${name}: barred. ${why}`, source }
}
