import type { Instant } from './instant.ts'
import type { KnownOf } from './known.ts'
import type { Policy } from './policy.ts'
import type { SubjectId, SubjectKind } from './subject.ts'

/** All that the rules may look at when they judge one entry, gathered beforehand. */
export interface Facts {
  readonly now: Instant
  readonly policy: Policy
  readonly known: <K extends SubjectKind>(id: SubjectId<K>) => KnownOf<K> | undefined
  /** For a load, the open recalls whose extent it lies in. */
  readonly recallsOfLoad: (load: SubjectId<'load'>) => readonly SubjectId<'recall'>[]
}
