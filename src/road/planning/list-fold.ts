import type { Fold } from '../fold.ts'
import type { Bodies } from '../kinds.ts'
import type { Step } from '../round.ts'
import type { SubjectId } from '../subject.ts'

export interface ListKnown {
  readonly id: SubjectId<'list'>
  /** The plan that stands: the one that was kept last. */
  readonly plan: Step<Omit<Bodies['list-planned'], 'list'>> | null
  readonly plans: number
}

export const listFold: Fold<'list', ListKnown> = {
  subject: 'list',
  begin: (id) => ({ id, plan: null, plans: 0 }),
  evolve(state, entry) {
    if (entry.kind !== 'list-planned') return state
    const { list: _, ...plan } = entry.body
    const at = { at: entry.happenedAt, entry: entry.id, by: entry.by }
    return { ...state, plan: { ...plan, ...at }, plans: state.plans + 1 }
  },
  standing: (state) => (state.plans > 1 ? 'replanned' : 'planned'),
}
