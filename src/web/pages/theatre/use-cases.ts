import { useQuery } from '@tanstack/react-query'
import type { KnownPage, KnownRow } from '#service/api-types.ts'
import { ask } from '../../api/client.ts'
import { knownQuery } from '../../api/queries.ts'
import { useNow } from '../../session/use-now.ts'
import { useTimes } from '../../session/unit.ts'

export type CaseRow = KnownRow<'case'>

interface Cases {
  readonly today: readonly CaseRow[]
  readonly later: readonly CaseRow[]
  readonly earlier: readonly CaseRow[]
  readonly recorded: readonly CaseRow[]
}

const latestRecorded = 100

/** The newest recorded cases: enough for a day and for choosing one. */
export function useRecordedCases() {
  return useQuery({
    queryKey: ['known', 'case', 'latest'],
    queryFn: async () =>
      (await ask<KnownPage<'case'>>(`/api/known?kind=case&standing=recorded&limit=${latestRecorded}`)).rows,
  })
}

/** Cases by the day they are planned for, in the unit's own time. */
export function useCases(): Cases | undefined {
  const times = useTimes()
  const now = useNow(60)
  const open = useQuery(knownQuery('case', ['booked', 'running'])).data
  const recorded = useRecordedCases().data
  if (open === undefined || recorded === undefined) return undefined
  const today = times.day(new Date(now).toISOString())
  const planned = (row: CaseRow) => row.state.booked?.plannedAt ?? row.since
  const byTime = (rows: readonly CaseRow[]) => rows.toSorted((a, b) => (planned(a) < planned(b) ? -1 : 1))
  const isToday = (row: CaseRow) => times.day(planned(row)) === today
  return {
    today: byTime(open.filter(isToday)),
    later: byTime(open.filter((row) => !isToday(row) && Date.parse(planned(row)) > now)),
    earlier: byTime(open.filter((row) => !isToday(row) && Date.parse(planned(row)) <= now)),
    recorded: byTime(recorded.filter(isToday)),
  }
}
