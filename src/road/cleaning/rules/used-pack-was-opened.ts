import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { recordPractice } from '../../unit/limits.ts'

/** A set is used in a case only from a pack that was opened for it. */
export const usedPackWasOpened = defineRule({
  id: 'used-pack-was-opened',
  says: 'A set whose use ends in a case came from a pack that was opened for that case.',
  on: ['use-ended'],
  exceptionAllowed: false,
  check(facts, { body }) {
    if (body.previousRound === undefined || body.case === undefined) return []
    const before = facts.known(body.previousRound)
    if (before === undefined || before.opened?.case === body.case) return []
    return [
      {
        weight: 'caution',
        says: `${packName(facts, body.previousRound)} was not recorded as opened for this case. Record its opening, so that a trace finds it.`,
        source: recordPractice,
      },
    ]
  },
})
