import { useParams, useSearchParams } from 'react-router'
import type { SubjectId, SubjectKind } from '#road/subject.ts'

/** The subject that the address of the page names. */
export function useKey<Kind extends SubjectKind>(kind: Kind): SubjectId<Kind> {
  const { key = '' } = useParams()
  return `${kind}:${key}`
}

/** A subject that the address names after the question mark; null when it names none. */
export function useSearchKey<Kind extends SubjectKind>(kind: Kind): SubjectId<Kind> | null {
  const [search] = useSearchParams()
  const key = search.get(kind)
  return key === null || key === '' ? null : `${kind}:${key}`
}
