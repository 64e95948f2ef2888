import type { SetKnown } from './fold.ts'
import type { ItemKnown } from './item-fold.ts'

/** Uses of an item in its set, with those from before this record began. A moved item brings its own count along. */
export function usesOfItem(set: SetKnown, item: ItemKnown): number {
  return item.usesBefore + (set.itemUses[item.id] ?? 0)
}
