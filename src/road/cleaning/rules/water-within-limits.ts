import { defineRule } from '../../rule.ts'
import { recordPractice } from '../../unit/limits.ts'
import { waterFound } from '../water-found.ts'

/** Water keeps the limits of its use. */
export const waterWithinLimits = defineRule({
  id: 'water-within-limits',
  says: 'A sample of water keeps the limits of the place where the water is used; what grew in it is told.',
  on: ['water-sampled'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const use = facts.known(body.outlet)?.use ?? null
    if (use === null) return []
    const grown =
      body.organism === undefined
        ? []
        : [
            {
              weight: 'caution' as const,
              says: `${body.organism} grew from this water. Tell infection control; trace what was rinsed here.`,
              source: recordPractice,
            },
          ]
    return [...waterFound(body, use, facts.policy), ...grown]
  },
})
