import { useQuery } from '@tanstack/react-query'
import { type SubjectId, subjectKey, subjectKind } from '#road/subject.ts'
import { knownQuery } from '../api/queries.ts'

const namedKinds = ['person', 'set', 'device', 'machine', 'outlet'] as const
type NamedKind = (typeof namedKinds)[number]

/** The name of a subject that has one; the key of any other. */
export function Named({ id }: { readonly id: SubjectId }) {
  const kind = namedKinds.find((each) => each === subjectKind(id))
  if (kind !== undefined) return <NameOf kind={kind} id={id} />
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
    // A name that was withdrawn leaves an empty one behind.
    return data?.find((row) => row.subject === id)?.state.name || subjectKey(id)
  }
}
