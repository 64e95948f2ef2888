import { useQuery } from '@tanstack/react-query'
import type { PolicyAnswer } from '#service/api-types.ts'
import { policyQuery } from '../api/queries.ts'

export type LimitInForce = PolicyAnswer['limits'][number]

/** A limit of the policy in force, with its source; undefined while it is not known. */
export function useLimit(id: string): LimitInForce | undefined {
  const { data } = useQuery(policyQuery)
  return data?.limits.find((limit) => limit.id === id)
}
