import { queryOptions } from '@tanstack/react-query'
import type { SubjectId } from '#road/subject.ts'
import type { ArrivalsAnswer, ConnectionAnswer, RunningAnswer } from '#service/machine-answers.ts'
import { ask } from './client.ts'

type Machine = SubjectId<'machine'>

const of = (machine: Machine, what: string) => `/api/machines/${encodeURIComponent(machine)}/${what}`

/** What came by itself is told by no entry: it is asked for now and then while somebody looks. */
const lookAgainMillis = 5000

export function connectionQuery(machine: Machine) {
  return queryOptions({
    queryKey: ['connection', machine as string],
    queryFn: () => ask<ConnectionAnswer>(of(machine, 'connection')),
    refetchInterval: lookAgainMillis,
  })
}

export function arrivalsQuery(machine: Machine) {
  return queryOptions({
    queryKey: ['arrivals', machine as string],
    queryFn: async () => (await ask<ArrivalsAnswer>(of(machine, 'arrivals'))).arrivals,
    refetchInterval: lookAgainMillis,
  })
}

/** Asked for again at each event "running" of the live stream. */
export function runningQuery(machine: Machine) {
  return queryOptions({
    queryKey: ['running', machine as string],
    queryFn: () => ask<RunningAnswer>(of(machine, 'running')),
    refetchInterval: lookAgainMillis,
  })
}
