import { keepPreviousData, useQuery } from '@tanstack/react-query'
import { v7 } from 'uuid'
import type { EntryId, SentEntry } from '#road/entry.ts'
import type { EntryJudged } from '#service/api-types.ts'
import { post } from '../api/client.ts'

/**
 * What the rules say of an entry as it stands in a form; asked again when its words change. Each question has an id of
 * its own: that of the form may just have been kept with these words, and to ask with it again would be a conflict. Where the
 * form names no time the entry is of the moment of the question, also when it is asked again.
 */
export function useJudgement(draft: SentEntry | null, enabled: boolean, at?: string) {
  return useQuery({
    queryKey: ['judge', draft?.kind, JSON.stringify(draft?.body), JSON.stringify(draft?.exception), at],
    queryFn: () => {
      const happenedAt = at ?? new Date().toISOString()
      return post<EntryJudged>('/api/entries/judge', { ...draft, happenedAt, id: v7() as EntryId })
    },
    enabled: enabled && draft !== null,
    placeholderData: keepPreviousData,
    retry: false,
  })
}

export type Judgement = ReturnType<typeof useJudgement>
