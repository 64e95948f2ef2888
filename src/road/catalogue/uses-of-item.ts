import type { SubjectId } from '../subject.ts'
import type { SetKnown } from './fold.ts'
import type { ItemKnown } from './item-fold.ts'

/** Uses of an item, with those from before this record began. In no set, it keeps the count that it was moved with. */
export function usesOfItem(set: SetKnown | undefined, item: ItemKnown): number {
  return item.usesBefore + usesSinceCounted(set, item)
}

/** Uses counted here, which a moved item brings along. */
export function usesSinceCounted(set: SetKnown | undefined, item: ItemKnown): number {
  return set?.itemUses[item.id] ?? item.usesAtMove
}

/**
 * Cycles done by the items of one device in a set: those of the item that did most, since the set goes as one.
 * Every use was followed by one trip to a steriliser or bath, whichever it was; so each use counts as a cycle.
 */
export function cyclesDoneBy(
  set: SetKnown,
  device: SubjectId<'device'>,
  items: readonly (ItemKnown | undefined)[],
): number | undefined {
  const counts = items.flatMap((item) => (item?.device === device ? [usesOfItem(set, item)] : []))
  return counts.length === 0 ? undefined : Math.max(...counts)
}
