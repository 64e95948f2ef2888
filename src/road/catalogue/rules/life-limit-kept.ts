import type { Facts } from '../../facts.ts'
import { defineRule, type Found } from '../../rule.ts'
import { setOf } from '../../set-content.ts'
import type { SubjectId } from '../../subject.ts'
import type { SetKnown } from '../fold.ts'
import { lifeWarningUses } from '../limits.ts'
import { lifeLimit } from '../sources.ts'
import { usesOfItem } from '../uses-of-item.ts'

/** An item past the life that its maker states is retired, not packed. */
export const lifeLimitKept = defineRule({
  id: 'life-limit-kept',
  says: 'An item that has reached the life stated by its maker is not packed again.',
  on: ['pack-sealed'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const set = setOf(facts, body.round)
    if (set === undefined) return []
    return set.items.flatMap((item) => foundOn(facts, set, item))
  },
})

function foundOn(facts: Facts, set: SetKnown, id: SubjectId<'item'>): readonly Found[] {
  const item = facts.known(id)
  const device = item?.device === null || item === undefined ? undefined : facts.known(item.device)
  if (item === undefined || device?.lifeInUses === undefined) return []
  const uses = usesOfItem(set, item)
  const left = device.lifeInUses - uses
  const figures = { measured: `${uses} uses`, limit: `${device.lifeInUses} uses`, source: lifeLimit }
  const name = `${device.name}${item.serial === null ? '' : ` ${item.serial}`}`
  if (left <= 0) {
    return [{ weight: 'stop', says: `${name} has reached its life. Retire it and take another.`, ...figures }]
  }
  if (left > facts.policy.limit(lifeWarningUses).value) return []
  return [{ weight: 'caution', says: `${name} has ${left} uses left. Order the next one.`, ...figures }]
}
