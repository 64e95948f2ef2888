import type { Bodies } from '../kinds.ts'
import type { Fold } from '../fold.ts'
import type { Step } from '../round.ts'
import type { SubjectId } from '../subject.ts'

export interface WoundKnown {
  readonly id: SubjectId<'wound'>
  readonly noted: Step<Omit<Bodies['wound-noted'], 'wound'>> | null
}

export const woundFold: Fold<'wound', WoundKnown> = {
  subject: 'wound',
  begin: (id) => ({ id, noted: null }),
  evolve(state, entry) {
    if (entry.kind !== 'wound-noted') return state
    const { wound: _, ...noted } = entry.body
    return { id: state.id, noted: { ...noted, at: entry.happenedAt, entry: entry.id, by: entry.by } }
  },
  standing: () => 'noted',
}
