import { queryOptions } from '@tanstack/react-query'
import type { PlanOfDay, SimulationOfDay } from '#service/api-types.ts'
import { ask } from './client.ts'

/** What is asked of a day besides its plan; minutes of the day. */
export interface PlanQuestion {
  readonly seconds: number
  readonly order?: readonly { readonly case: string; readonly theatre: string }[]
  readonly locks?: readonly { readonly case: string; readonly theatre: string; readonly start: number }[]
  readonly replan?: boolean
}

// A plan takes a processor for seconds: it is asked for when somebody wants it, not whenever a window comes to the front.
const once = { staleTime: Infinity, refetchOnWindowFocus: false, refetchOnReconnect: false, retry: false } as const

/** The plan of a day, looked for so many seconds. Leaving the page ends the work. */
export function planQuery(day: string, seconds: number) {
  return queryOptions({
    queryKey: ['plan', day, seconds],
    queryFn: ({ signal }) => ask<PlanOfDay>(`/api/plan/${day}?seconds=${seconds}`, { signal }),
    ...once,
  })
}

export function planQuestionQuery(day: string, question: PlanQuestion | null) {
  return queryOptions({
    queryKey: ['plan', day, 'question', JSON.stringify(question)],
    queryFn: ({ signal }) => asked<PlanOfDay>(`/api/plan/${day}`, question, signal),
    enabled: question !== null,
    ...once,
  })
}

/** The plan run many times, and with each purchase; each plan is looked for so many seconds. */
export function simulationQuery(day: string, enabled: boolean) {
  const question = { runs: 2000, seconds: 1, purchases: true }
  return queryOptions({
    queryKey: ['plan', day, 'simulate'],
    queryFn: ({ signal }) => asked<SimulationOfDay>(`/api/plan/${day}/simulate`, question, signal),
    enabled,
    ...once,
  })
}

function asked<Answer>(path: string, question: unknown, signal: AbortSignal): Promise<Answer> {
  const headers = { 'content-type': 'application/json' }
  return ask<Answer>(path, { method: 'POST', headers, body: JSON.stringify(question), signal })
}
