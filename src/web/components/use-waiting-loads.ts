import { useQuery } from '@tanstack/react-query'
import { isRead } from '#road/sterilising/load-fold.ts'
import type { KnownPage, ListedRow } from '#service/api-types.ts'
import { ask } from '../api/client.ts'

const latest = 40

/** Loads that somebody has to do something with: log, decide, or read the biological indicator of. The newest first. */
export function useWaitingLoads(): readonly ListedRow<'load'>[] {
  const { data = [] } = useQuery({
    queryKey: ['known', 'load', 'waiting'],
    queryFn: async () =>
      (
        await ask<KnownPage<'load'>>(
          `/api/known?kind=load&standing=built,run,aerating,aerationStopped,cancelled,quarantined&limit=${latest}`,
        )
      ).rows,
  })
  return data.filter(({ standing, state }) => {
    if (standing !== 'run') return true
    return state.rounds.length > 0 || (state.challenge?.biologicalLot !== undefined && !isRead(state))
  })
}
