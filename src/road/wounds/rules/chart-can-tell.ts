import { defineRule } from '../../rule.ts'
import { chartDesign } from '../sources.ts'
import { isDesignable, leastRaisedRate, mostUsualRate } from '../surveillance/chart-design.ts'

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
    if (!isDesignable(body)) {
      const [says, limit] =
        body.usualRate > 0 && body.usualRate <= mostUsualRate && body.raisedRate < 1
          ? [
              'The raised rate is too near to the usual one for a chart to be worked out. Set it higher.',
              `at least ${leastRaisedRate(body.usualRate).toFixed(4)}`,
            ]
          : [
              'A chart needs a usual rate above 0 and of no more than a half, and a raised rate below 1.',
              `above 0 to ${mostUsualRate}, below 1`,
            ]
      return [{ weight: 'stop', says, measured: `${body.usualRate} to ${body.raisedRate}`, limit, source: chartDesign }]
    }
    if (body.riskAdjusted && (facts.known(body.chart)?.model ?? null) === null) {
      const says = 'No model of risk is kept with this chart yet: every operation weighs the same until one is.'
      return [{ weight: 'note', says, source: chartDesign }]
    }
    return []
  },
})
