import type { EntryId } from '../entry.ts'
import type { Fold } from '../fold.ts'
import type { Instant } from '../instant.ts'
import type { SubjectId } from '../subject.ts'

export interface UnitKnown {
  readonly id: SubjectId<'unit'>
  readonly name: string
  readonly demonstration: boolean
  readonly timeZone: string
}

export const unitFold: Fold<'unit', UnitKnown> = {
  subject: 'unit',
  begin: (id) => ({ id, name: '', demonstration: false, timeZone: 'UTC' }),
  evolve: (state, entry) =>
    entry.kind === 'unit-opened'
      ? {
          id: state.id,
          name: entry.body.name,
          demonstration: entry.body.demonstration,
          timeZone: entry.body.timeZone,
        }
      : state,
  standing: () => 'open',
}

export type LimitValue = number | string | boolean | null

export interface PolicyKnown {
  readonly id: SubjectId<'policy'>
  /** Names the policy that a decision was made under: the last change, or the defaults. */
  readonly version: EntryId | 'defaults'
  readonly changed: Readonly<
    Record<
      string,
      {
        readonly value: LimitValue
        readonly reason: string
        readonly by: SubjectId<'person'>
        readonly at: Instant
        readonly entry: EntryId
      }
    >
  >
}

export const policyFold: Fold<'policy', PolicyKnown> = {
  subject: 'policy',
  begin: (id) => ({ id, version: 'defaults', changed: {} }),
  evolve: (state, entry) =>
    entry.kind === 'limit-changed'
      ? {
          id: state.id,
          version: entry.id,
          changed: {
            ...state.changed,
            [entry.body.limit]: {
              value: entry.body.value,
              reason: entry.body.reason,
              by: entry.by,
              at: entry.happenedAt,
              entry: entry.id,
            },
          },
        }
      : state,
  standing: (state) => (state.version === 'defaults' ? 'defaults' : 'changed'),
}
