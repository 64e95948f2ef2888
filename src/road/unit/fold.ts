import type { EntryId } from '../entry.ts'
import type { Fold } from '../fold.ts'
import type { Instant } from '../instant.ts'
import type { Bodies } from '../kinds.ts'
import type { Step } from '../round.ts'
import type { SubjectId } from '../subject.ts'

export interface UnitKnown {
  readonly id: SubjectId<'unit'>
  readonly name: string
  readonly demonstration: boolean
  readonly timeZone: string
  /** The last reading of each place where packs are stored. */
  readonly stores?: Readonly<Record<string, Step<Omit<Bodies['storage-measured'], 'unit' | 'place'>>>> | undefined
  /** Working hours as they were set last, each by what they are of: `theatre Theatre 1`, `staff packing`, `machine:a`. */
  readonly hours?: Readonly<Record<string, Step<Bodies['hours-set']['hours']>>> | undefined
}

export const unitFold: Fold<'unit', UnitKnown> = {
  subject: 'unit',
  begin: (id) => ({ id, name: '', demonstration: false, timeZone: 'UTC' }),
  evolve(state, entry) {
    switch (entry.kind) {
      case 'unit-opened': {
        const { name, demonstration, timeZone } = entry.body
        return { ...state, name, demonstration, timeZone }
      }
      case 'storage-measured': {
        const { place, temperatureC, humidityPercent } = entry.body
        const reading = { temperatureC, humidityPercent, at: entry.happenedAt, entry: entry.id, by: entry.by }
        return { ...state, stores: { ...state.stores, [place]: reading } }
      }
      case 'hours-set': {
        const { hours } = entry.body
        const set = { ...hours, at: entry.happenedAt, entry: entry.id, by: entry.by }
        return { ...state, hours: { ...state.hours, [hoursKey(hours)]: set } }
      }
      default:
        return state
    }
  },
  standing: () => 'open',
}

export function hoursKey(hours: Bodies['hours-set']['hours']): string {
  switch (hours.kind) {
    case 'theatre':
      return `theatre ${hours.theatre}`
    case 'staff':
      return `staff ${hours.place}`
    case 'machine':
      return hours.machine
  }
}

export type LimitValue = number | string | boolean | null

/** One change of a limit, and when it was in force from. */
export interface LimitChange {
  readonly limit: string
  readonly value: LimitValue
  readonly reason: string
  readonly by: SubjectId<'person'>
  readonly at: Instant
  readonly entry: EntryId
}

export interface PolicyKnown {
  readonly id: SubjectId<'policy'>
  /** Names the policy that a decision was made under: the last change, or the defaults. */
  readonly version: EntryId | 'defaults'
  readonly changed: Readonly<Record<string, Omit<LimitChange, 'limit'>>>
  /** Every change, the oldest first: what was done before one is judged by what was in force then. */
  readonly history?: readonly LimitChange[]
}

export const policyFold: Fold<'policy', PolicyKnown> = {
  subject: 'policy',
  begin: (id) => ({ id, version: 'defaults', changed: {}, history: [] }),
  evolve(state, entry) {
    if (entry.kind !== 'limit-changed') return state
    const { limit, value, reason } = entry.body
    const change = { value, reason, by: entry.by, at: entry.happenedAt, entry: entry.id }
    return {
      id: state.id,
      version: entry.id,
      changed: { ...state.changed, [limit]: change },
      history: [...(state.history ?? []), { limit, ...change }],
    }
  },
  standing: (state) => (state.version === 'defaults' ? 'defaults' : 'changed'),
}
