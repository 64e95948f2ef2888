import type { SubjectId } from '../subject.ts'
import type { SetKnown } from './fold.ts'
import type { ItemKnown } from './item-fold.ts'

/** Uses of an item in its set, with those from before this record began. A moved item brings its own count along. */
export function usesOfItem(set: SetKnown, item: ItemKnown): number {
  return item.usesBefore + (set.itemUses[item.id] ?? 0)
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
