import { useQuery } from '@tanstack/react-query'
import type { LoadKnown } from '#road/sterilising/load-fold.ts'
import { wantedIncubation } from '#road/sterilising/wanted-incubation.ts'
import { subjectQuery } from '../api/queries.ts'
import { usePolicy } from './use-policy.ts'

/** Hours before no growth counts in this load; undefined until its machine is known here. */
export function useWantedIncubation(load: Pick<LoadKnown, 'machine'>): number | undefined {
  const { data } = useQuery({ ...subjectQuery(load.machine ?? 'machine:none'), enabled: load.machine !== null })
  const policy = usePolicy()
  if (load.machine !== null && data === undefined) return undefined
  return wantedIncubation(data?.state, policy)
}
