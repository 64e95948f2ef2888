import { useQueries, useQuery } from '@tanstack/react-query'
import type { SubjectId } from '#road/subject.ts'
import { knownQuery, recallQuery } from '../api/queries.ts'

/** Packs that an open recall is about and that are not accounted for yet: round to recall. */
export function useRecalled(): ReadonlyMap<SubjectId<'round'>, SubjectId<'recall'>> {
  const { data: open = [] } = useQuery(knownQuery('recall', ['open']))
  const answers = useQueries({ queries: open.map((row) => recallQuery(row.subject)) })
  const recalled = new Map<SubjectId<'round'>, SubjectId<'recall'>>()
  for (const { data } of answers) {
    for (const pack of data?.packs ?? []) {
      if (data !== undefined && pack.duty !== 'cleared' && pack.outcome === null)
        recalled.set(pack.round, data.recall.id)
    }
  }
  return recalled
}
