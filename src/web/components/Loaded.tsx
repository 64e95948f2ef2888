import type { ReactNode } from 'react'
import type { UseQueryResult } from '@tanstack/react-query'
import { words } from '../words/words.ts'
import { ProblemNote } from './ProblemNote.tsx'

interface Props<Data> {
  readonly query: UseQueryResult<Data>
  readonly children: (data: Data) => ReactNode
}

/** Shows what was asked for; before that says so, and says what went wrong if it did. */
export function Loaded<Data>({ query, children }: Props<Data>) {
  if (query.data !== undefined) return children(query.data)
  if (query.error) return <ProblemNote error={query.error} retry={() => void query.refetch()} />
  return <p className="soft">{words.loading}</p>
}
