import { defineRule } from '../../rule.ts'
import { modelInfections } from '../limits.ts'

/** A model fitted to few infections says little. */
export const modelOnEnoughInfections = defineRule({
  id: 'model-on-enough-infections',
  says: 'A model of risk rests on enough infections for each of its factors.',
  on: ['risk-model-kept'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const factors = Object.keys(body.coefficients).length
    const { value, source } = facts.policy.limit(modelInfections)
    if (factors === 0 || body.infections >= factors * value) return []
    return [
      {
        weight: 'caution',
        says: 'Few infections for so many factors: the forecasts will be unsure. Keep fewer factors, or wait.',
        measured: `${body.infections} infections for ${factors} factors`,
        limit: `${value} for each`,
        source,
      },
    ]
  },
})
