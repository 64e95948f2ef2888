import { useQuery } from '@tanstack/react-query'
import type { KnownOf } from '#road/known.ts'
import { type SubjectId, subjectKey, subjectKind } from '#road/subject.ts'
import { knownQuery } from '../api/queries.ts'

const namedKinds = ['person', 'set', 'device', 'machine', 'outlet', 'lot'] as const
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
    return labelOf(data?.find((row) => row.subject === id)?.state) || subjectKey(id)
  }
}

/** A lot is called by the number on its label, in the letters in which it is printed. */
function labelOf(state: KnownOf<NamedKind> | undefined): string | undefined {
  return state === undefined ? undefined : 'number' in state ? state.number : state.name
}
