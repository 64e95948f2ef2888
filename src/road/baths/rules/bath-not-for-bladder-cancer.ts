import { defineRule } from '../../rule.ts'
import { noUrologyWithBladderCancer } from '../patient-limits.ts'
import { useAtDecision } from '../use-from-facts.ts'

/** Ortho-phthalaldehyde is barred for urology after bladder cancer. */
export const bathNotForBladderCancer = defineRule({
  id: 'bath-not-for-bladder-cancer',
  says: 'Ortho-phthalaldehyde is not used on urological instruments for a patient who had bladder cancer.',
  on: ['immersion-decided'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt }) {
    const use = body.outcome === 'readyForUse' ? useAtDecision(facts, body, happenedAt) : undefined
    return use === undefined ? [] : noUrologyWithBladderCancer(use.product, body)
  },
})
