import { queryOptions } from '@tanstack/react-query'
import type { ScanAnswer } from '#road/scanning/scan-answer.ts'
import type { KeptEntry } from '#road/entry.ts'
import type {
  CycleChart,
  EntriesPage,
  FindAnswer,
  KnownPage,
  KnownRow,
  ListedRow,
  PolicyAnswer,
  RecallAnswer,
  RuleRow,
  TraceAnswer,
  UnitState,
  WorkingDescription,
} from '#service/api-types.ts'
import type { SubjectId, SubjectKind } from '#road/subject.ts'
import { ask } from './client.ts'

/** The most pages of a list that a screen asks for; beyond it a screen names what it shows. */
const mostPages = 20
const pageSize = 500

export const unitQuery = queryOptions({
  queryKey: ['unit'],
  queryFn: () => ask<UnitState>('/api/unit'),
  refetchInterval: (query) => (query.state.data?.state === 'settingUp' ? 1000 : false),
})

/** All subjects of a kind, or those in some standings only. */
export function knownQuery<Kind extends SubjectKind>(kind: Kind, standings: readonly string[] = []) {
  const query = new URLSearchParams({ kind })
  if (standings.length > 0) query.set('standing', standings.join(','))
  return queryOptions({
    queryKey: ['known', kind, standings.join(',')],
    queryFn: () => allKnown<Kind>(query),
  })
}

/** The subjects of a kind that changed where they stand last. */
export function newestQuery<Kind extends SubjectKind>(kind: Kind, limit: number) {
  const query = new URLSearchParams({ kind, limit: String(limit) })
  return queryOptions({
    queryKey: ['known', kind, 'newest', limit],
    queryFn: async () => (await ask<KnownPage<Kind>>(`/api/known?${query.toString()}`)).rows,
  })
}

async function allKnown<Kind extends SubjectKind>(query: URLSearchParams): Promise<readonly ListedRow<Kind>[]> {
  const rows: ListedRow<Kind>[] = []
  query.set('limit', String(pageSize))
  for (let page = 0; page < mostPages; page += 1) {
    // A page names the next one.
    // oxlint-disable-next-line no-await-in-loop
    const answer = await ask<KnownPage<Kind>>(`/api/known?${query.toString()}`)
    rows.push(...answer.rows)
    if (answer.next === null) break
    query.set('after', answer.next)
  }
  return rows
}

export function subjectQuery<Kind extends SubjectKind>(subject: SubjectId<Kind>) {
  return queryOptions({
    queryKey: ['subject', subject as string],
    queryFn: () => ask<KnownRow<Kind>>(`/api/known/${encodeURIComponent(subject)}`),
  })
}

export function entriesOfQuery(subject: SubjectId) {
  return queryOptions({
    queryKey: ['entries', subject as string],
    queryFn: async () => (await ask<EntriesPage>(`/api/entries?subject=${encodeURIComponent(subject)}`)).entries,
  })
}

export function entryQuery(id: string) {
  return queryOptions({
    queryKey: ['entry', id],
    queryFn: () => ask<KeptEntry>(`/api/entries/${id}`),
    staleTime: Infinity,
  })
}

export function traceQuery(subject: SubjectId, direction: string) {
  return queryOptions({
    queryKey: ['trace', subject as string, direction],
    queryFn: () => ask<TraceAnswer>(`/api/trace/${encodeURIComponent(subject)}?direction=${direction}`),
  })
}

export function recallQuery(recall: SubjectId<'recall'>) {
  return queryOptions({
    queryKey: ['recall', recall as string],
    queryFn: () => ask<RecallAnswer>(`/api/recalls/${encodeURIComponent(recall)}`),
  })
}

export function scanQuery(code: string) {
  return queryOptions({
    queryKey: ['scan', code],
    queryFn: () => ask<ScanAnswer>(`/api/scan?code=${encodeURIComponent(code)}`),
  })
}

export function findQuery(text: string) {
  return queryOptions({
    queryKey: ['find', text],
    queryFn: async () => (await ask<FindAnswer>(`/api/find?text=${encodeURIComponent(text)}`)).found,
  })
}

export const workingsQuery = queryOptions({
  queryKey: ['workings'],
  queryFn: () => ask<readonly WorkingDescription[]>('/api/workings'),
  staleTime: Infinity,
})

export const policyQuery = queryOptions({
  queryKey: ['policy'],
  queryFn: () => ask<PolicyAnswer>('/api/policy'),
})

export function chartQuery(load: SubjectId<'load'>, enabled: boolean) {
  return queryOptions({
    queryKey: ['chart', load as string],
    queryFn: () => ask<CycleChart>(`/api/loads/${encodeURIComponent(load)}/chart`),
    enabled,
  })
}

export const rulesQuery = queryOptions({
  queryKey: ['rules'],
  queryFn: () => ask<readonly RuleRow[]>('/api/rules'),
  staleTime: Infinity,
})

export function loadsOfQuery(machine: SubjectId<'machine'>) {
  return queryOptions({
    queryKey: ['known', 'load', machine as string],
    queryFn: () => ask<readonly ListedRow<'load'>[]>(`/api/machines/${encodeURIComponent(machine)}/loads?limit=30`),
  })
}
