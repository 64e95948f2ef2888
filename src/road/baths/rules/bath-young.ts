import { defineRule } from '../../rule.ts'
import { youngEnough } from '../bath-use.ts'
import { useAtDecision, useAtStart } from '../use-from-facts.ts'

/** A bath is within its days until the contact ends. */
export const bathYoung = defineRule({
  id: 'bath-young',
  says: 'A use of a bath counts only if the bath is within its reuse days and its expiry until the contact ends.',
  on: ['immersion-started', 'immersion-decided'],
  exceptionAllowed: false,
  check(facts, entry) {
    if (entry.kind === 'immersion-decided' && entry.body.outcome !== 'readyForUse') return []
    const use =
      entry.kind === 'immersion-started'
        ? useAtStart(facts, entry.body, entry.happenedAt)
        : useAtDecision(facts, entry.body, entry.happenedAt)
    return use === undefined ? [] : youngEnough(use, facts.policy)
  },
})
