import { useQuery } from '@tanstack/react-query'
import { useMemo } from 'react'
import { type Policy, policyFrom } from '#road/policy.ts'
import { policyQuery } from '../api/queries.ts'

/** The policy in force, for the calculations that a screen makes itself. */
export function usePolicy(): Policy {
  const { data } = useQuery(policyQuery)
  return useMemo(() => {
    const delivered = policyFrom(undefined)
    const limits = new Map(data?.limits.map((limit) => [limit.id, limit]))
    return {
      version: data?.version ?? delivered.version,
      limit: (limit) => {
        const inForce = limits.get(limit.id)
        return inForce === undefined || typeof inForce.value !== typeof limit.value
          ? delivered.limit(limit)
          : { value: inForce.value as typeof limit.value, source: inForce.source }
      },
    }
  }, [data])
}
