import { z } from 'zod'
import { defineTopic } from '../deciding/topic.ts'
import type { Finding } from '../finding.ts'
import { breachSteps, exposureRecalled, exposureSteps, exposureTalk } from './exposure-steps.ts'

const stepIds = exposureSteps.map(({ id }) => id)

export const breachTopic = defineTopic({
  topic: 'exposure',
  title: 'After a failure that may have reached patients: what comes next, and are the patients told?',
  decisions: {
    confirmFirst: 'it is not confirmed yet that anything failed: confirm that, and reprocess the device now',
    contain: 'confirmed, but items in question may still be used or the process still runs: stop that first',
    noExposure: 'no patient was reached: correct what failed and write the report',
    notifyAndTest: 'a gross error or a practice of high risk: notify the patients and test them',
    weighAndDecide:
      'a lower risk: weigh the risk, public concern, the duty to warn and the harm of telling, then decide',
  },
  given: z.strictObject({
    category: z
      .enum(['A', 'B'])
      .describe('A: gross error or high-risk practice. B: exposure less likely, the risk has to be weighed'),
    confirmed: z.boolean().default(true).describe('A failure is confirmed'),
    contained: z.boolean().default(true).describe('Items in question are kept from use and the process is stopped'),
    patientsReached: z.boolean().default(true),
    done: z
      .array(z.string())
      .default([])
      .describe(`Steps that are done: ${stepIds.join(', ')}`),
  }),
  sources: [breachSteps, exposureTalk, exposureRecalled],
  example: { given: { category: 'A' }, decision: 'notifyAndTest' },
  decide(given) {
    const done = new Set(given.done)
    const unknown = given.done.filter((id) => !stepIds.includes(id))
    const open = exposureSteps
      .filter(({ id }) => !done.has(id))
      .map(({ id, says, source }): Finding => ({
        rule: 'exposure-steps',
        weight: 'note',
        says,
        measured: `step ${stepIds.indexOf(id) + 1} of ${stepIds.length}, ${id}`,
        source,
      }))
    const misnamed = unknown.map((id): Finding => ({
      rule: 'exposure-steps',
      weight: 'caution',
      says: `There is no step "${id}".`,
      limit: stepIds.join(', '),
      source: exposureTalk,
    }))
    return { decision: decisionOf(given), findings: [...aboutCategory(given), ...misnamed, ...open] }
  },
})

interface Breach {
  readonly category: 'A' | 'B'
  readonly confirmed: boolean
  readonly contained: boolean
  readonly patientsReached: boolean
}

function decisionOf({ category, confirmed, contained, patientsReached }: Breach): string {
  if (!confirmed) return 'confirmFirst'
  if (!contained) return 'contain'
  if (!patientsReached) return 'noExposure'
  return category === 'A' ? 'notifyAndTest' : 'weighAndDecide'
}

function aboutCategory({ category, patientsReached }: Breach): readonly Finding[] {
  if (!patientsReached) return []
  const says =
    category === 'A'
      ? 'Notify the patients: the risk, the signs, the time, whom to ask, what protects, what was corrected. Test for hepatitis B, hepatitis C and HIV at the beginning.'
      : 'Weigh the risk of infection, public concern, and the duty to warn against the harm of telling; decide with infection control and the management, and write down why.'
  return [
    {
      rule: 'breach-category',
      weight: category === 'A' ? 'stop' : 'caution',
      says,
      measured: category,
      source: breachSteps,
    },
  ]
}
