import { defineRule } from '../../rule.ts'
import { statedBy } from '../investigation/fold.ts'
import { portRules } from '../sources.ts'

/** A result of a test that belongs to no hypothesis would be seen by nobody. */
export const hypothesisTestedWasStated = defineRule({
  id: 'hypothesis-tested-was-stated',
  says: 'The result of a test is that of a hypothesis which was stated in the same investigation.',
  on: ['hypothesis-tested'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const known = facts.known(body.investigation)
    if (known === undefined) return []
    const stated = statedBy(known, body.hypothesis)
    if (known.hypotheses.some(({ entry }) => entry === stated)) return []
    const says =
      'This investigation has no such hypothesis, so the result is shown with none. Name the entry that stated it.'
    return [{ weight: 'caution', says, measured: body.hypothesis, limit: 'a hypothesis of it', source: portRules }]
  },
})
