import { useQuery } from '@tanstack/react-query'
import type { ReactNode } from 'react'
import { useSearchParams } from 'react-router'
import type { EntryId } from '#road/entry.ts'
import type { KindName } from '#road/kinds.ts'
import { subjectKey, type SubjectId, type SubjectKind } from '#road/subject.ts'
import type { ListedRow } from '#service/api-types.ts'
import { entriesOfQuery, knownQuery } from '../api/queries.ts'
import { words } from '../words/words.ts'
import { NotOnRecord } from './NotOnRecord.tsx'

interface Props<Kind extends SubjectKind> {
  readonly of: Kind
  readonly kind: KindName
  /** The form, with what is registered, and the registration that it corrects. */
  readonly children: (row: ListedRow<Kind> | null, corrects: EntryId | undefined) => ReactNode
}

/** The form of a registration, filled in with the one that the address names to be changed, or empty. */
export function Changed<Kind extends SubjectKind>({ of, kind, children }: Props<Kind>) {
  const [search] = useSearchParams()
  const copied = search.get('copy')
  const rows = useQuery({ ...knownQuery(of), enabled: copied !== null }).data
  const row = rows?.find((each) => subjectKey(each.subject) === copied)
  const subject: SubjectId<Kind> = `${of}:${copied ?? ''}`
  const entries = useQuery({ ...entriesOfQuery(subject), enabled: copied !== null }).data
  if (copied === null) return children(null, undefined)
  if (rows === undefined || entries === undefined) return <p className="soft">{words.loading}</p>
  if (row === undefined) return <NotOnRecord of={subject} />
  return children(row, entries.findLast((entry) => entry.kind === kind)?.id)
}
