import { useQuery } from '@tanstack/react-query'
import { hldForLaparoscope } from '#road/catalogue/limits.ts'
import { offersOfUnit } from '#road/catalogue/offers-of-unit.ts'
import type { RouteAsk } from '#road/catalogue/route/ask.ts'
import type { Policy } from '#road/policy.ts'
import type { LimitValue } from '#road/unit/fold.ts'
import type { Limit } from '#road/policy.ts'
import { knownQuery, policyQuery } from '../api/queries.ts'

/** What this unit owns and which limits are in force, for the routes; undefined while it is not known. */
export function useRouteAsk(): { readonly ask: RouteAsk; readonly policy: Policy } | undefined {
  const machines = useQuery(knownQuery('machine')).data
  const baths = useQuery(knownQuery('bath', ['inUse'])).data
  const answer = useQuery(policyQuery).data
  if (machines === undefined || baths === undefined || answer === undefined) return undefined
  const policy: Policy = {
    version: answer.version,
    limit<Value extends LimitValue>(limit: Limit<Value>) {
      const inForce = answer.limits.find((each) => each.id === limit.id)
      if (inForce === undefined || typeof inForce.value !== typeof limit.value) return limit
      return { value: inForce.value as Value, source: inForce.source }
    },
  }
  const offers = offersOfUnit(
    machines.filter((row) => row.standing === 'inService').map((row) => row.state),
    baths.map((row) => row.state),
  )
  return { ask: { toStore: true, hldForLaparoscope: policy.limit(hldForLaparoscope).value, offers }, policy }
}
