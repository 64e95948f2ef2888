import { z } from 'zod'
import { caseEntry, caseFacts, caseKnown, caseStep, hoursAgo } from '../deciding/case-facts.ts'
import { ChangedLimits, casePolicy } from '../deciding/case-policy.ts'
import { defineTopic } from '../deciding/topic.ts'
import { judge } from '../judge.ts'
import { rules } from '../rules.ts'
import type { SubjectId } from '../subject.ts'
import { chamberMethods, machineTypeOf } from './method-of.ts'
import { cdcMonitoring, cdcPositiveIndicator } from './sources.ts'

const machine = 'machine:case'

export const machineReturnTopic = defineTopic({
  topic: 'machine-return',
  title: 'May a steriliser go back into service after a failure or repair?',
  decisions: {
    returned: 'proven: it goes back into service',
    staysOut: 'not proven yet: run the rest of the tests',
  },
  given: z.strictObject({
    method: z.enum(chamberMethods),
    airRemoval: z.enum(['dynamic', 'gravity', 'none']).default('none'),
    biological: z
      .array(z.enum(['negative', 'positive', 'invalid', 'notRead']))
      .describe(
        'Results since it was stopped or repaired, the oldest first; negative counts only with a control that grew',
      ),
    airRemovalPasses: z.int().nonnegative().default(0).describe('Air-removal tests passed in a row since then'),
    limits: ChangedLimits,
  }),
  sources: [cdcPositiveIndicator, cdcMonitoring],
  example: {
    given: {
      method: 'steam',
      airRemoval: 'dynamic',
      biological: ['negative', 'negative', 'negative'],
      airRemovalPasses: 3,
    },
    decision: 'returned',
  },
  decide(given) {
    const loads = given.biological.map((result, index) => {
      const id: SubjectId<'load'> = `load:test-${index + 1}`
      return caseKnown('load', id, { machine, purpose: 'retest', biological: readingsOf(result) })
    })
    const state = caseKnown('machine', machine, {
      name: 'The steriliser',
      type: machineTypeOf[given.method],
      airRemoval: given.method === 'steam' ? given.airRemoval : 'none',
      airRemovalPasses: given.airRemovalPasses,
      service: { state: 'withdrawn', since: hoursAgo(48), why: 'given with the case' },
    })
    const facts = caseFacts(casePolicy(given.limits), [state], { loadsSinceStop: () => loads })
    const { findings, refused } = judge(rules, facts, caseEntry('machine-returned', { machine, why: 'asked' }))
    return { decision: refused ? 'staysOut' : 'returned', findings }
  },
})

function readingsOf(result: 'negative' | 'positive' | 'invalid' | 'notRead') {
  if (result === 'notRead') return []
  const grew = result === 'positive' ? ('growth' as const) : ('noGrowth' as const)
  const control = { lot: 'b', result: result === 'invalid' ? ('noGrowth' as const) : ('growth' as const) }
  return [caseStep(hoursAgo(1), { lot: 'b', result: grew, control, incubatedHours: 48 })]
}
