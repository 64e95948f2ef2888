import { z } from 'zod'
import { casePolicy, ChangedLimits } from '../deciding/case-policy.ts'
import { defineTopic } from '../deciding/topic.ts'
import { soilFound, soilOutcome } from './cleaning-test.ts'
import { soilAnalytes, soilLimits } from './cleaning-test-limits.ts'

export const cleaningTestTopic = defineTopic({
  topic: 'cleaning-test',
  title: 'Is the instrument clean by this test?',
  decisions: {
    pass: 'Below the alert level.',
    alert: 'Passes, at or above the alert level.',
    action: 'Above the action level: wash again.',
  },
  given: z.strictObject({ limits: ChangedLimits, analyte: z.enum(soilAnalytes), value: z.number().min(0).max(1e6) }),
  sources: [soilLimits.protein.alert.source, soilLimits.endotoxin.action.source],
  example: { given: { analyte: 'protein', value: 6 }, decision: 'alert' },
  decide({ limits, ...given }) {
    const policy = casePolicy(limits)
    const found = soilFound(given, policy)
    return {
      decision: soilOutcome(given, policy),
      findings: found.map((each) => ({ rule: 'cleaning-test', ...each })),
    }
  },
})
