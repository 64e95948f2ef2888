import type { Fold } from '../fold.ts'
import type { Instant } from '../instant.ts'
import type { Bodies } from '../kinds.ts'
import type { SubjectId } from '../subject.ts'

export interface WashKnown {
  readonly id: SubjectId<'wash'>
  readonly at: Instant | null
  readonly rounds: readonly SubjectId<'round'>[]
  readonly how: Bodies['wash-recorded']['how'] | null
  readonly outlets: readonly SubjectId<'outlet'>[]
  readonly detergentLot: SubjectId<'lot'> | null
}

export const washFold: Fold<'wash', WashKnown> = {
  subject: 'wash',
  begin: (id) => ({ id, at: null, rounds: [], how: null, outlets: [], detergentLot: null }),
  evolve: (state, entry) =>
    entry.kind === 'wash-recorded' && entry.body.wash === state.id
      ? {
          id: state.id,
          at: entry.happenedAt,
          rounds: entry.body.rounds,
          how: entry.body.how,
          outlets: entry.body.outlets ?? [],
          detergentLot: entry.body.detergentLot ?? null,
        }
      : state,
  standing: (state) => state.how?.kind ?? 'unknown',
}
