import type { Fold } from '../fold.ts'
import type { Instant } from '../instant.ts'
import type { Bodies } from '../kinds.ts'
import type { SubjectId } from '../subject.ts'

export type DeviceKnown = Omit<Bodies['device-registered'], 'device'> & { readonly id: SubjectId<'device'> }

export const deviceFold: Fold<'device', DeviceKnown> = {
  subject: 'device',
  begin: (id) => ({
    id,
    name: '',
    contact: 'critical',
    steam: 'noInstructionsOnFile',
    lumens: [],
    parts: 1,
    insulated: false,
    optic: false,
    singleUse: false,
  }),
  evolve(state, entry) {
    if (entry.kind !== 'device-registered') return state
    const { device: _, ...attributes } = entry.body
    return { id: state.id, ...attributes }
  },
  standing: () => 'registered',
}

export interface ItemKnown {
  readonly id: SubjectId<'item'>
  readonly device: SubjectId<'device'> | null
  readonly serial: string | null
}

export const itemFold: Fold<'item', ItemKnown> = {
  subject: 'item',
  begin: (id) => ({ id, device: null, serial: null }),
  evolve: (state, entry) =>
    entry.kind === 'item-registered'
      ? { id: state.id, device: entry.body.device, serial: entry.body.serial ?? null }
      : state,
  standing: () => 'registered',
}

export interface SetKnown {
  readonly id: SubjectId<'set'>
  readonly name: string
  readonly countSheet: Bodies['set-registered']['countSheet']
  readonly items: readonly SubjectId<'item'>[]
  /** The round that the set is on now, and when it began. */
  readonly round: { readonly id: SubjectId<'round'>; readonly began: Instant } | null
  readonly rounds: number
}

export const setFold: Fold<'set', SetKnown> = {
  subject: 'set',
  begin: (id) => ({ id, name: '', countSheet: [], items: [], round: null, rounds: 0 }),
  evolve(state, entry) {
    switch (entry.kind) {
      case 'set-registered':
        return { ...state, name: entry.body.name, countSheet: entry.body.countSheet, items: entry.body.items ?? [] }
      case 'use-ended':
      case 'reprocessing-started':
        if (entry.body.set !== state.id) return state
        return { ...state, round: { id: entry.body.round, began: entry.happenedAt }, rounds: state.rounds + 1 }
      default:
        return state
    }
  },
  standing: (state) => (state.round === null ? 'neverUsed' : 'onRound'),
}
