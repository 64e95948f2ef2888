import { defineRule, type Found } from '../../rule.ts'
import { stripControl } from '../sources.ts'
import { bottleProven } from '../strip-bottle.ts'

/** A bottle of strips is tried before it is used. */
export const stripBottleProven = defineRule({
  id: 'strip-bottle-proven',
  says: 'A bottle of strips is used only if its strips pass in full strength and fail in half strength.',
  on: ['strip-bottle-opened', 'strip-read'],
  exceptionAllowed: false,
  check(facts, entry): readonly Found[] {
    if (entry.kind === 'strip-bottle-opened') return bottleProven(entry.body, facts.policy)
    const bottle = facts.known(entry.body.lot)
    if (bottle?.controls !== null && bottle?.controls !== undefined) return bottleProven(bottle.controls, facts.policy)
    const says = 'It is not recorded that this bottle of strips was tried when it was opened.'
    return [{ weight: 'notEvaluable', says, source: stripControl }]
  },
})
