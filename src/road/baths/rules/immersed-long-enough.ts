import { defineRule } from '../../rule.ts'
import { longEnough } from '../bath-use.ts'
import { useAtDecision } from '../use-from-facts.ts'

/** The contact lasts as long as the label asks. */
export const immersedLongEnough = defineRule({
  id: 'immersed-long-enough',
  says: 'What comes out of a bath is ready only if the contact lasted at least as long as the label asks.',
  on: ['immersion-decided'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt }) {
    const use = body.outcome === 'readyForUse' ? useAtDecision(facts, body, happenedAt) : undefined
    return use === undefined ? [] : longEnough(use, facts.policy)
  },
})
