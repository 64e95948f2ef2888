import { z } from 'zod'
import { casePolicy, ChangedLimits } from '../deciding/case-policy.ts'
import { defineTopic } from '../deciding/topic.ts'
import { decided } from './accepted.ts'
import { aerationHolds } from './aeration.ts'
import { aerationRange, ambientAeration, pairRule } from './sources.ts'

export const aerationTopic = defineTopic({
  topic: 'aeration',
  title: 'Is the aeration of an ethylene oxide load done?',
  decisions: {
    done: 'A listed pair of temperature and time is met; the load may be judged for release.',
    hold: 'The load stays in the aerator.',
  },
  given: z.strictObject({
    limits: ChangedLimits,
    temperatureC: z.number().min(-20).max(100),
    hours: z.number().min(0).max(10_000),
    makerHours: z.number().min(0).max(10_000).optional(),
  }),
  sources: [aerationRange, ambientAeration, pairRule],
  example: { given: { temperatureC: 50, hours: 8 }, decision: 'hold' },
  decide({ limits, ...given }) {
    const found = aerationHolds(given, casePolicy(limits))
    return decided('aeration', found.length === 0 ? 'done' : 'hold', found)
  },
})
