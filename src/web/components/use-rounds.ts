import { useQuery } from '@tanstack/react-query'
import { roundStandings } from '#road/round.ts'
import { knownQuery } from '../api/queries.ts'

const onTheWay = roundStandings.filter((standing) => standing !== 'over')

/** Every round that is not over: one for each set that is on its way. */
export function useRounds() {
  return useQuery(knownQuery('round', onTheWay))
}
