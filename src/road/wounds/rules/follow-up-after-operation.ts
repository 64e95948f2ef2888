import { defineRule } from '../../rule.ts'
import { operatedOn } from '../follow-up/operated-on.ts'
import { followUpPlan } from '../sources.ts'

/** A follow-up comes after its operation. */
export const followUpAfterOperation = defineRule({
  id: 'follow-up-after-operation',
  says: 'A follow-up comes after its operation was recorded.',
  on: ['follow-up-made', 'follow-up-ended'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt }) {
    const operation = facts.known(body.case)
    const operated = operation === undefined ? null : operatedOn(operation)
    if (operated !== null && happenedAt > operated) return []
    const says =
      operated === null
        ? 'The operation of this case is not recorded: a follow-up counts only once it is.'
        : 'This follow-up lies before the end of the operation. Correct one of the two times.'
    return [
      {
        weight: 'caution',
        says,
        measured: happenedAt,
        limit: operated ?? 'a recorded operation',
        source: followUpPlan,
      },
    ]
  },
})
