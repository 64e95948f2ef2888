import { defineRule } from '../../rule.ts'
import { reachedEverywhere } from '../bath-use.ts'
import { useAtDecision, useAtStart } from '../use-from-facts.ts'

/** The liquid reaches all of a clean and dry instrument. */
export const immersedEverywhere = defineRule({
  id: 'immersed-everywhere',
  says: 'A use of a bath counts only if all was immersed, every lumen filled, and all cleaned and dry beforehand.',
  on: ['immersion-started', 'immersion-decided'],
  exceptionAllowed: false,
  check(facts, entry) {
    if (entry.kind === 'immersion-decided' && entry.body.outcome !== 'readyForUse') return []
    const use =
      entry.kind === 'immersion-started'
        ? useAtStart(facts, entry.body, entry.happenedAt)
        : useAtDecision(facts, entry.body, entry.happenedAt)
    return use === undefined ? [] : reachedEverywhere(use, facts.policy)
  },
})
