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

export interface Loan {
  readonly lender: string
  readonly arrivedAt: Instant
  readonly neededAt: Instant
  readonly dueBack: Instant
  readonly returnedAt: Instant | null
}

export interface SetKnown {
  readonly id: SubjectId<'set'>
  readonly name: string
  readonly countSheet: Bodies['set-registered']['countSheet']
  readonly items: readonly SubjectId<'item'>[]
  /** Uses of each item, counted from the rounds of this set that began by use. */
  readonly itemUses: Readonly<Record<SubjectId<'item'>, number>>
  readonly loan: Loan | null
  /** The round that the set is on now, and when it began. */
  readonly round: { readonly id: SubjectId<'round'>; readonly began: Instant } | null
  readonly rounds: number
}

export const setFold: Fold<'set', SetKnown> = {
  subject: 'set',
  begin: (id) => ({ id, name: '', countSheet: [], items: [], itemUses: {}, loan: null, round: null, rounds: 0 }),
  evolve(state, entry) {
    switch (entry.kind) {
      case 'set-registered':
        return { ...state, name: entry.body.name, countSheet: entry.body.countSheet, items: entry.body.items ?? [] }
      case 'loan-arrived': {
        const { name, countSheet, lender, neededAt, dueBack } = entry.body
        const loan = { lender, arrivedAt: entry.happenedAt, neededAt, dueBack, returnedAt: null }
        return { ...state, name, countSheet, loan }
      }
      case 'loan-returned':
        return state.loan === null ? state : { ...state, loan: { ...state.loan, returnedAt: entry.happenedAt } }
      case 'item-moved':
        return withMoved(state, entry.body)
      case 'use-ended':
      case 'reprocessing-started': {
        if (entry.body.set !== state.id) return state
        const round = { id: entry.body.round, began: entry.happenedAt }
        const itemUses = entry.kind === 'use-ended' ? usedOnceMore(state) : state.itemUses
        return { ...state, round, rounds: state.rounds + 1, itemUses }
      }
      default:
        return state
    }
  },
  standing(state) {
    if (state.loan !== null && state.loan.returnedAt !== null) return 'returned'
    return state.round === null ? 'neverUsed' : 'onRound'
  },
}

function usedOnceMore(state: SetKnown): SetKnown['itemUses'] {
  return {
    ...state.itemUses,
    ...Object.fromEntries(state.items.map((item) => [item, (state.itemUses[item] ?? 0) + 1])),
  }
}

function withMoved(state: SetKnown, { item, to, uses }: Bodies['item-moved']): SetKnown {
  const others = state.items.filter((each) => each !== item)
  if (to !== state.id) return { ...state, items: others }
  return { ...state, items: [...others, item], itemUses: { ...state.itemUses, [item]: uses } }
}
