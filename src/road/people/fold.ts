import type { Fold } from '../fold.ts'
import type { SubjectId } from '../subject.ts'
import type { Role } from './entries.ts'

export interface PersonKnown {
  readonly id: SubjectId<'person'>
  readonly name: string
  readonly roles: readonly Role[]
  readonly left: boolean
}

export const personFold: Fold<'person', PersonKnown> = {
  subject: 'person',
  begin: (id) => ({ id, name: '', roles: [], left: false }),
  evolve(state, entry) {
    switch (entry.kind) {
      case 'person-registered':
        return { ...state, name: entry.body.name, roles: entry.body.roles, left: false }
      case 'person-left':
        return { ...state, left: true }
      default:
        return state
    }
  },
  standing: (state) => (state.left ? 'left' : 'active'),
}
