import type { Instant } from './instant.ts'
import type { KnownOf } from './known.ts'
import type { Link, Relation } from './link.ts'
import type { SubjectId, SubjectKind } from './subject.ts'

/** Which links to give: those from or to any of these subjects, by any of these relations. */
export interface LinkQuery {
  readonly end: 'from' | 'to'
  readonly subjects: readonly SubjectId[]
  readonly relations?: readonly Relation[]
  /** Only links made at or after, at or before this moment. */
  readonly since?: Instant
  readonly until?: Instant
  readonly order?: 'oldestFirst' | 'newestFirst'
  readonly limit?: number
}

/**
 * What the road may ask of the record. The shell answers; a test answers from a table.
 * Answers never change anything.
 */
export interface Look {
  known<K extends SubjectKind>(ids: readonly SubjectId<K>[]): Promise<ReadonlyMap<SubjectId<K>, KnownOf<K>>>
  links(query: LinkQuery): Promise<readonly Link[]>
  /** All subjects of a kind in any of these standings. */
  standing<K extends SubjectKind>(kind: K, standings: readonly string[]): Promise<readonly KnownOf<K>[]>
}
