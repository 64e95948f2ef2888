import { useQuery } from '@tanstack/react-query'
import { type SubjectId, subjectKey, subjectKind } from '#road/subject.ts'
import { knownQuery } from '../api/queries.ts'

type NamedKind = 'person' | 'set' | 'device' | 'machine'

/** The name of a subject that has one; the key of any other. */
export function Named({ id }: { readonly id: SubjectId }) {
  const kind = subjectKind(id)
  if (kind === 'person' || kind === 'set' || kind === 'device' || kind === 'machine')
    return <NameOf kind={kind} id={id} />
  return <span className="key">{subjectKey(id)}</span>
}

function NameOf({ kind, id }: { readonly kind: NamedKind; readonly id: SubjectId }) {
  return useNames(kind)(id)
}

/** Names of all subjects of a kind that has names; there are few, so they are asked for once. */
export function useNames(kind: NamedKind): (id: SubjectId | null | undefined) => string {
  const { data } = useQuery(knownQuery(kind))
  return (id) => {
    if (id === null || id === undefined) return ''
    return data?.find((row) => row.subject === id)?.state.name ?? subjectKey(id)
  }
}
