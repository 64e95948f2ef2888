import { useQuery } from '@tanstack/react-query'
import { millis } from '#road/instant.ts'
import { type ReadingDue, readingDue } from '#road/sterilising/reading-due.ts'
import { wantedIncubation } from '#road/sterilising/wanted-incubation.ts'
import type { KnownPage } from '#service/api-types.ts'
import { ask } from '../api/client.ts'
import { knownQuery } from '../api/queries.ts'
import { useNow } from '../session/use-now.ts'
import { usePolicy } from './use-policy.ts'
import { useLotOf } from './use-wanted-incubation.ts'

const latest = 60

export interface ReadingCalled extends ReadingDue {
  /** Whether its time is over. */
  readonly isOver: boolean
}

/** The indicators that somebody has to read: those whose time is over, and those that were read too early, before it too. */
export function useReadingsDue(): readonly ReadingCalled[] {
  const now = useNow(60)
  const policy = usePolicy()
  const lotOf = useLotOf()
  const { data: machines } = useQuery(knownQuery('machine'))
  const { data: loads = [] } = useQuery({
    queryKey: ['known', 'load', 'toRead'],
    queryFn: async () =>
      (await ask<KnownPage<'load'>>(`/api/known?kind=load&standing=run,aerating,quarantined,released&limit=${latest}`))
        .rows,
  })
  if (lotOf === undefined || machines === undefined) return []
  return loads.flatMap(({ state }): readonly ReadingCalled[] => {
    const machine = machines.find((row) => row.subject === state.machine)
    const due = readingDue(state, wantedIncubation(machine?.state, policy, lotOf))
    if (due === undefined) return []
    const isOver = millis(due.at) <= now
    return isOver || due.again ? [{ ...due, isOver }] : []
  })
}
