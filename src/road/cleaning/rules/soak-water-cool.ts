import { defineRule } from '../../rule.ts'
import { precleanBelowC } from '../limits.ts'

/** Pre-cleaning water is cool enough not to set protein. */
export const soakWaterCool = defineRule({
  id: 'soak-water-cool',
  says: 'Water for the soak is colder than the temperature at which protein sets.',
  on: ['soak-started'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const limit = facts.policy.limit(precleanBelowC)
    if (body.waterC === undefined || body.waterC < limit.value) return []
    return [
      {
        weight: 'caution',
        says: 'The soak water is too hot: protein sets on the steel. Change it for cooler water.',
        measured: `${body.waterC} °C`,
        limit: `below ${limit.value} °C`,
        source: limit.source,
      },
    ]
  },
})
