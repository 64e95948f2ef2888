import { useQuery } from '@tanstack/react-query'
import { useMemo } from 'react'
import { clocksFrom, type ToldClock } from '#road/clocks/clocks-from.ts'
import { instant } from '#road/instant.ts'
import { knownQuery } from '../api/queries.ts'
import { useNames } from '../components/Named.tsx'
import { useNow } from '../session/use-now.ts'
import { usePolicy } from '../components/use-policy.ts'

/** Every clock of the unit, told anew each second. Nothing is kept here: a reload or another screen shows the same. */
export function useClocks(): readonly ToldClock[] {
  const now = useNow(1)
  const policy = usePolicy()
  const { data: immersions } = useQuery(knownQuery('immersion', ['immersed']))
  const { data: baths } = useQuery(knownQuery('bath', ['inUse', 'failedStrip']))
  const { data: rounds } = useQuery(knownQuery('round', ['used']))
  const { data: cases } = useQuery(knownQuery('case', ['booked', 'running']))
  const setName = useNames('set')
  const { data: loads } = useQuery(knownQuery('load', ['aerating']))
  const facts = useMemo(
    () => ({
      policy,
      immersions: (immersions ?? []).map((row) => row.state),
      baths: (baths ?? []).map((row) => row.state),
      loads: (loads ?? []).map((row) => row.state),
      rounds: (rounds ?? []).map((row) => row.state),
      cases: (cases ?? []).map((row) => row.state),
    }),
    [policy, immersions, baths, loads, rounds, cases],
  )
  return clocksFrom({ ...facts, setName }, instant(now))
}
