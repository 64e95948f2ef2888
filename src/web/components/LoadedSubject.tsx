import type { ReactNode } from 'react'
import type { UseQueryResult } from '@tanstack/react-query'
import { type SubjectId, subjectKind } from '#road/subject.ts'
import { words } from '../words/words.ts'
import { isMissing, NotOnRecord } from './NotOnRecord.tsx'
import { Page } from './Page.tsx'
import { ProblemNote } from './ProblemNote.tsx'

interface Props<Data> {
  /** What the address of the page names. */
  readonly of: SubjectId
  readonly query: UseQueryResult<Data>
  /** The whole page, with its heading. */
  readonly children: (data: Data) => ReactNode
}

/** The page of one subject. When there is none, or no answer, the page still has its heading, and a way on. */
export function LoadedSubject<Data>({ of, query, children }: Props<Data>) {
  if (query.data !== undefined) return children(query.data)
  const { error } = query
  if (error === null) return <p className="soft">{words.loading}</p>
  const kind = words.standings.kinds[subjectKind(of)]
  return isMissing(error) ? (
    <Page title={words.missing.title(kind)}>
      <NotOnRecord of={of} />
    </Page>
  ) : (
    <Page title={kind}>
      <ProblemNote error={error} retry={() => void query.refetch()} />
    </Page>
  )
}
