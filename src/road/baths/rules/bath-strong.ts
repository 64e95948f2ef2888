import { defineRule } from '../../rule.ts'
import { strongEnough } from '../bath-use.ts'
import { useAtDecision, useAtStart } from '../use-from-facts.ts'

/** A strip of this very use shows enough strength. */
export const bathStrong = defineRule({
  id: 'bath-strong',
  says: 'A use of a bath counts only if a strip read for this very use shows at least the minimum effective concentration.',
  on: ['immersion-started', 'immersion-decided'],
  exceptionAllowed: false,
  check(facts, entry) {
    if (entry.kind === 'immersion-decided' && entry.body.outcome !== 'readyForUse') return []
    const use =
      entry.kind === 'immersion-started'
        ? useAtStart(facts, entry.body, entry.happenedAt)
        : useAtDecision(facts, entry.body, entry.happenedAt)
    return use === undefined ? [] : strongEnough(use, facts.policy)
  },
})
