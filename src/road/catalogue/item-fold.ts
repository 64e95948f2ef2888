import type { Fold } from '../fold.ts'
import type { Instant } from '../instant.ts'
import type { Bodies } from '../kinds.ts'
import type { SubjectId } from '../subject.ts'

export interface ItemKnown {
  readonly id: SubjectId<'item'>
  readonly device: SubjectId<'device'> | null
  readonly serial: string | null
  readonly giai?: string
  /** Uses before its first set here began to count; see `SetKnown.itemUses`. */
  readonly usesBefore: number
  /** Uses counted here when it was last moved. */
  readonly usesAtMove: number
  /** Away for repair since then, until it is recorded as repaired. */
  readonly out: { readonly at: Instant; readonly what: string } | null
  readonly repairs: readonly { readonly at: Instant; readonly what: string }[]
  readonly insulation: readonly { readonly at: Instant; readonly result: 'passed' | 'failed' }[]
  readonly retired: { readonly at: Instant; readonly because: Bodies['item-retired']['because'] } | null
}

export const itemFold: Fold<'item', ItemKnown> = {
  subject: 'item',
  begin: (id) => ({
    id,
    device: null,
    serial: null,
    usesBefore: 0,
    usesAtMove: 0,
    out: null,
    repairs: [],
    insulation: [],
    retired: null,
  }),
  evolve(state, entry) {
    const at = entry.happenedAt
    switch (entry.kind) {
      case 'item-registered':
        return {
          ...state,
          device: entry.body.device,
          serial: entry.body.serial ?? null,
          ...(entry.body.giai === undefined ? {} : { giai: entry.body.giai }),
          usesBefore: entry.body.usesBefore ?? 0,
        }
      case 'item-moved':
        return { ...state, usesAtMove: entry.body.uses }
      case 'item-sent-out':
        return { ...state, out: { at, what: entry.body.what } }
      case 'item-repaired':
        return { ...state, out: null, repairs: [...state.repairs, { at, what: entry.body.what }] }
      case 'item-insulation-tested':
        return { ...state, insulation: [...state.insulation, { at, result: entry.body.result }] }
      case 'item-retired':
        return { ...state, retired: { at, because: entry.body.because } }
      default:
        return state
    }
  },
  standing(state) {
    if (state.retired !== null) return 'retired'
    if (state.out !== null) return 'outForRepair'
    return insulationFaulty(state) ? 'insulationFaulty' : 'registered'
  },
}

/** Whether the last test of the insulation failed and no repair with a passed test came after it. */
export function insulationFaulty(item: ItemKnown): boolean {
  return item.insulation.at(-1)?.result === 'failed'
}
