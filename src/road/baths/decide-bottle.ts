import { z } from 'zod'
import { defineTopic } from '../deciding/topic.ts'
import { stands } from '../finding.ts'
import { policyFrom } from '../policy.ts'
import { stripControl } from './sources.ts'
import { bottleProven } from './strip-bottle.ts'

const count = z.int().min(0).max(20)

export const stripBottleTopic = defineTopic({
  topic: 'strip-bottle',
  title: 'May a bottle of strength strips be used?',
  decisions: {
    accept: 'the strips tell a full bath from a spent one',
    reject: 'the bottle is not used: open another',
  },
  given: z
    .strictObject({
      fullStrength: z.strictObject({ tried: count, passed: count }).describe('strips dipped in the full strength'),
      halfStrength: z.strictObject({ tried: count, failed: count }).describe('strips dipped in a 1 to 1 dilution'),
    })
    .refine(({ fullStrength: { tried, passed } }) => passed <= tried, {
      path: ['fullStrength', 'passed'],
      message: 'no more than were tried',
    })
    .refine(({ halfStrength: { tried, failed } }) => failed <= tried, {
      path: ['halfStrength', 'failed'],
      message: 'no more than were tried',
    }),
  sources: [stripControl],
  example: {
    given: { fullStrength: { tried: 3, passed: 3 }, halfStrength: { tried: 3, failed: 2 } },
    decision: 'reject',
  },
  decide(given) {
    const findings = bottleProven(given, policyFrom(undefined)).map((found) => ({
      rule: 'strip-bottle-proven',
      ...found,
    }))
    return { decision: findings.some(stands) ? 'reject' : 'accept', findings }
  },
})
