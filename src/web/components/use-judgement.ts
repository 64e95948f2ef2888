import { keepPreviousData, useQuery } from '@tanstack/react-query'
import type { SentEntry } from '#road/entry.ts'
import type { EntryJudged } from '#service/api-types.ts'
import { post } from '../api/client.ts'

/** What the rules say of an entry as it stands in a form; asked again when its words change. */
export function useJudgement(draft: SentEntry | null, enabled: boolean) {
  return useQuery({
    queryKey: ['judge', draft?.kind, JSON.stringify(draft?.body), JSON.stringify(draft?.exception)],
    queryFn: () => post<EntryJudged>('/api/entries/judge', draft),
    enabled: enabled && draft !== null,
    placeholderData: keepPreviousData,
    retry: false,
  })
}
