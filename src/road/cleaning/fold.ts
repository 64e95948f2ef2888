import type { Fold } from '../fold.ts'
import type { Instant } from '../instant.ts'
import type { Bodies } from '../kinds.ts'
import type { Step } from '../round.ts'
import type { SubjectId } from '../subject.ts'

export interface WashKnown {
  readonly id: SubjectId<'wash'>
  readonly at: Instant | null
  readonly rounds: readonly SubjectId<'round'>[]
  readonly how: Bodies['wash-recorded']['how'] | null
  readonly outlets: readonly SubjectId<'outlet'>[]
  readonly detergentLot: SubjectId<'lot'> | null
  /** Tests of what this wash left: kept for good, so that a washer that gets worse is seen over time. */
  readonly tests: readonly WashTest[]
}

export type WashTest = Step<Omit<Bodies['cleaning-tested'], 'wash' | 'photos'>>

export const washFold: Fold<'wash', WashKnown> = {
  subject: 'wash',
  begin: (id) => ({ id, at: null, rounds: [], how: null, outlets: [], detergentLot: null, tests: [] }),
  evolve(state, entry) {
    if (entry.kind === 'cleaning-tested') {
      const { wash, photos: _, ...tested } = entry.body
      if (wash !== state.id) return state
      const step = { ...tested, at: entry.happenedAt, entry: entry.id, by: entry.by }
      return { ...state, tests: [...state.tests, step] }
    }
    if (entry.kind !== 'wash-recorded' || entry.body.wash !== state.id) return state
    return {
      ...state,
      at: entry.happenedAt,
      rounds: entry.body.rounds,
      how: entry.body.how,
      outlets: entry.body.outlets ?? [],
      detergentLot: entry.body.detergentLot ?? null,
    }
  },
  // The few that were tested can be listed by themselves.
  standing: (state) => (state.tests.length > 0 ? 'tested' : (state.how?.kind ?? 'unknown')),
}
