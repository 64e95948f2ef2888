import type { TypedKept, TypedSent } from '../kinds.ts'
import { folds, type KnownOf } from '../known.ts'
import type { SubjectId, SubjectKind } from '../subject.ts'

/** What is known of a subject after these entries, in this order. */
export function foldAllOf<K extends SubjectKind>(kind: K, id: SubjectId<K>, entries: readonly TypedSent[]): KnownOf<K> {
  const { begin, evolve } = folds[kind]
  return entries.reduce((state, entry) => evolve(state, entry as TypedKept), begin(id)) as KnownOf<K>
}
