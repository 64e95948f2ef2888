import { defineRule } from '../../rule.ts'
import { chartDesign } from '../sources.ts'

/** A chart watches for a rate above the usual one. */
export const chartCanTell = defineRule({
  id: 'chart-can-tell',
  says: 'A chart watches for a rate that is higher than the usual one; one weighed by risk needs a model.',
  on: ['chart-set'],
  exceptionAllowed: false,
  check(facts, { body }) {
    if (body.raisedRate <= body.usualRate) {
      const says = 'The raised rate is not above the usual one: there would be nothing to see. Set it higher.'
      return [
        {
          weight: 'stop',
          says,
          measured: String(body.raisedRate),
          limit: `above ${body.usualRate}`,
          source: chartDesign,
        },
      ]
    }
    if (body.riskAdjusted && (facts.known(body.chart)?.model ?? null) === null) {
      const says = 'No model of risk is kept with this chart yet: every operation weighs the same until one is.'
      return [{ weight: 'note', says, source: chartDesign }]
    }
    return []
  },
})
