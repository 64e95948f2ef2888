import { defineRule } from '../../rule.ts'
import { warmEnough } from '../bath-use.ts'
import { useAtDecision, useAtStart } from '../use-from-facts.ts'

/** A bath is at least as warm as its label asks. */
export const bathWarm = defineRule({
  id: 'bath-warm',
  says: 'A use of a bath counts only if the bath is at least as warm as the label asks; nothing is extrapolated.',
  on: ['immersion-started', 'immersion-decided'],
  exceptionAllowed: false,
  check(facts, entry) {
    if (entry.kind === 'immersion-decided' && entry.body.outcome !== 'readyForUse') return []
    const use =
      entry.kind === 'immersion-started'
        ? useAtStart(facts, entry.body, entry.happenedAt)
        : useAtDecision(facts, entry.body, entry.happenedAt)
    return use === undefined ? [] : warmEnough(use, facts.policy)
  },
})
