import { useQuery } from '@tanstack/react-query'
import type { LotOfIndicator, WantedIncubation } from '#road/sterilising/incubation.ts'
import type { LoadKnown } from '#road/sterilising/load-fold.ts'
import { wantedIncubation } from '#road/sterilising/wanted-incubation.ts'
import { knownQuery, subjectQuery } from '../api/queries.ts'
import { usePolicy } from './use-policy.ts'

/** What no growth needs to count in this load; undefined until its machine and the lots are known here. */
export function useWantedIncubation(load: Pick<LoadKnown, 'machine'>): WantedIncubation | undefined {
  const { data } = useQuery({ ...subjectQuery(load.machine ?? 'machine:none'), enabled: load.machine !== null })
  const policy = usePolicy()
  const lotOf = useLotOf()
  if (lotOf === undefined || (load.machine !== null && data === undefined)) return undefined
  return wantedIncubation(data?.state, policy, lotOf)
}

/** What is known of the lots of indicators; undefined until it is known here. */
export function useLotOf(): LotOfIndicator | undefined {
  const { data: lots } = useQuery(knownQuery('lot'))
  if (lots === undefined) return undefined
  return (id) => lots.find((row) => row.subject === id)?.state
}
