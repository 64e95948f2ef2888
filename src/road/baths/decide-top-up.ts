import { z } from 'zod'
import { defineTopic } from '../deciding/topic.ts'
import { policyFrom } from '../policy.ts'
import { BathProductId, bathProduct } from './products.ts'
import { clockPractice, failedStripPractice } from './sources.ts'

export const bathTopUpTopic = defineTopic({
  topic: 'bath-top-up',
  title: 'What does topping up do to a bath?',
  decisions: {
    clockUnchanged: 'the bath may go on, and its age still counts from its activation',
    discard: 'the bath is spent or too old: it is discarded whole',
  },
  given: z.strictObject({
    product: BathProductId,
    daysSinceActivation: z.number().nonnegative().describe('age of the bath when it is topped up, days of 24 h'),
    lastStrip: z.enum(['pass', 'fail']).nullable().default(null).describe('the last strip; null when there is none'),
  }),
  sources: [clockPractice, failedStripPractice],
  example: { given: { product: 'ortho-phthalaldehyde-0.55', daysSinceActivation: 10 }, decision: 'clockUnchanged' },
  decide({ product: id, daysSinceActivation, lastStrip }) {
    const days = bathProduct(id)?.reuseDays
    const limit = days === undefined ? undefined : policyFrom(undefined).limit(days)
    if (lastStrip === 'fail') {
      const says = 'The strip failed: topping up does not rescue the bath. Discard all of it.'
      return {
        decision: 'discard',
        findings: [{ rule: 'top-up-resets-nothing', weight: 'stop', says, source: failedStripPractice }],
      }
    }
    if (limit === undefined || daysSinceActivation > limit.value) {
      const says = 'The bath is past its days: topping up does not make it younger. Discard all of it.'
      return {
        decision: 'discard',
        findings: [
          {
            rule: 'top-up-resets-nothing',
            weight: 'stop',
            says,
            measured: `day ${daysSinceActivation}`,
            limit: `${limit?.value ?? 0} days`,
            source: limit?.source ?? clockPractice,
          },
        ],
      }
    }
    return {
      decision: 'clockUnchanged',
      findings: [
        {
          rule: 'top-up-resets-nothing',
          weight: 'note',
          says: 'The age still counts from the activation. Test the strength again before the next use.',
          measured: `day ${daysSinceActivation}`,
          limit: `${limit.value} days`,
          source: clockPractice,
        },
      ],
    }
  },
})
