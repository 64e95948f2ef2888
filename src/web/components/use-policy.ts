import { useQuery } from '@tanstack/react-query'
import { useMemo } from 'react'
import { type Limit, type Policy, policyFrom } from '#road/policy.ts'
import type { LimitValue } from '#road/unit/fold.ts'
import { policyQuery } from '../api/queries.ts'

/** The policy in force, as the rules see it; the defaults until it is known. */
export function usePolicy(): Policy {
  const { data } = useQuery(policyQuery)
  return useMemo(() => {
    const defaults = policyFrom(undefined)
    if (data === undefined) return defaults
    const inForce = new Map(data.limits.map((limit) => [limit.id, limit]))
    return {
      version: data.version,
      limit<Value extends LimitValue>(limit: Limit<Value>) {
        const found = inForce.get(limit.id)
        return found === undefined || typeof found.value !== typeof limit.value
          ? defaults.limit(limit)
          : { value: found.value as Value, source: found.source }
      },
    }
  }, [data])
}
