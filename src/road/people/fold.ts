import type { Bodies } from '../kinds.ts'
import type { Step } from '../round.ts'
import type { Fold } from '../fold.ts'
import type { SubjectId } from '../subject.ts'
import type { Role } from './entries.ts'

export interface PersonKnown {
  readonly id: SubjectId<'person'>
  readonly name: string
  readonly roles: readonly Role[]
  readonly left: boolean
  /** What this person breathed, the newest last: a year of measurements. */
  readonly exposures: readonly Step<Omit<Bodies['exposure-measured'], 'person'>>[]
}

/** More than a day of measurements for each day of a year is not kept at hand; the entries are. */
const exposuresKept = 400

export const personFold: Fold<'person', PersonKnown> = {
  subject: 'person',
  begin: (id) => ({ id, name: '', roles: [], left: false, exposures: [] }),
  evolve(state, entry) {
    switch (entry.kind) {
      case 'person-registered':
        return { ...state, name: entry.body.name, roles: entry.body.roles, left: false }
      case 'exposure-measured': {
        const { person: _, ...measured } = entry.body
        const step = { ...measured, at: entry.happenedAt, entry: entry.id, by: entry.by }
        return { ...state, exposures: [...state.exposures, step].slice(-exposuresKept) }
      }
      case 'person-left':
        return { ...state, left: true }
      default:
        return state
    }
  },
  standing: (state) => (state.left ? 'left' : 'active'),
}
