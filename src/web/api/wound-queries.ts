import { queryOptions } from '@tanstack/react-query'
import type { SubjectId } from '#road/subject.ts'
import type { InvestigationKnown } from '#road/wounds/investigation/fold.ts'
import type {
  CaseLine,
  ChartAnswer,
  ClustersAnswer,
  DueCall,
  InfectionChoice,
  LookBack,
  RateGroup,
  RatesBy,
  Suspects,
} from '#service/api-types.ts'
import { ask, post } from './client.ts'

/** Keys begin with `wounds`, so that a case, a wound or a chart that is kept anew, here or elsewhere, asks for them again. */
export const callsQuery = queryOptions({
  queryKey: ['wounds', 'calls'],
  queryFn: () => ask<readonly DueCall[]>('/api/wounds/calls'),
})

export function linesQuery(days: number) {
  return queryOptions({
    queryKey: ['wounds', 'lines', days],
    queryFn: () => ask<readonly CaseLine[]>(`/api/wounds/lines?days=${days}`),
  })
}

export function ratesQuery(by: RateGroup, days: number) {
  return queryOptions({
    queryKey: ['wounds', 'rates', by, days],
    queryFn: () => ask<RatesBy>(`/api/wounds/rates?by=${by}&days=${days}`),
  })
}

export function chartOfWoundsQuery(chart: SubjectId<'chart'>) {
  return queryOptions({
    queryKey: ['wounds', 'chart', chart as string],
    queryFn: () => ask<ChartAnswer>(`/api/wounds/charts/${encodeURIComponent(chart)}`),
  })
}

/** Kept for some minutes: a comparison burns the processor for seconds. */
export function suspectsQuery(days: number, infections: InfectionChoice) {
  return queryOptions({
    queryKey: ['suspects', days, infections],
    queryFn: () => ask<Suspects>(`/api/wounds/suspects?days=${days}&infections=${infections}`),
    staleTime: 300_000,
  })
}

/** Over the days that an investigation covers; they and its closing are part of the key, so that others ask anew. */
export function suspectsOfQuery({ id, window, closed }: InvestigationKnown, asKnown: 'closing' | 'now' = 'closing') {
  return queryOptions({
    queryKey: ['suspects', 'of', id as string, window?.entry ?? 'opened', closed?.entry ?? 'open', asKnown],
    queryFn: () => ask<Suspects>(`/api/wounds/suspects?investigation=${encodeURIComponent(id)}&asKnown=${asKnown}`),
    staleTime: 300_000,
  })
}

/** A closed investigation as it was known at its closing, and what entered the record since. */
export function lookBackQuery(id: InvestigationKnown['id']) {
  return queryOptions({
    queryKey: ['look-back', id as string],
    queryFn: () => ask<LookBack>(`/api/wounds/investigations/${encodeURIComponent(id)}`),
  })
}

/** The output of the working, as far as the form says it. */
export interface DesignInWords {
  readonly ARL0: number
  readonly proceduresToSignal: number
  readonly proceduresToSignalHeadStart: number
  readonly falseAlarmWithinYear: number
  readonly falseAlarmWithinYearHeadStart: number
}

/** What a chart of these wishes would do. */
export function designQuery(wishes: {
  readonly p0: number
  readonly p1: number
  readonly proceduresPerYear: number
  readonly yearsBetweenFalseAlarms: number
}) {
  return queryOptions({
    queryKey: ['working', 'cusum-in-words', wishes],
    queryFn: () => post<DesignInWords>('/api/workings/cusum-in-words', wishes),
    staleTime: Infinity,
    retry: false,
  })
}

export function clustersQuery(days: number) {
  return queryOptions({
    queryKey: ['suspects', 'clusters', days],
    queryFn: () => ask<ClustersAnswer>(`/api/wounds/clusters?days=${days}`),
    staleTime: 300_000,
  })
}
