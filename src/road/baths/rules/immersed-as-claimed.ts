import { defineRule } from '../../rule.ts'
import { claimOffered } from '../bath-use.ts'
import { useAtDecision, useAtStart } from '../use-from-facts.ts'

/** A bath is used only for what its product claims. */
export const immersedAsClaimed = defineRule({
  id: 'immersed-as-claimed',
  says: 'A bath is used only for what its product claims, and in the way that it claims it for.',
  on: ['immersion-started', 'immersion-decided'],
  exceptionAllowed: false,
  check(facts, entry) {
    if (entry.kind === 'immersion-decided' && entry.body.outcome !== 'readyForUse') return []
    const use =
      entry.kind === 'immersion-started'
        ? useAtStart(facts, entry.body, entry.happenedAt)
        : useAtDecision(facts, entry.body, entry.happenedAt)
    return use === undefined ? [] : claimOffered(use, facts.policy)
  },
})
