import { z } from 'zod'
import { caseEntry, caseFacts, caseKnown, caseStep, hoursAgo } from '../deciding/case-facts.ts'
import { ChangedLimits, casePolicy } from '../deciding/case-policy.ts'
import { defineTopic } from '../deciding/topic.ts'
import { judge } from '../judge.ts'
import { rules } from '../rules.ts'
import type { SubjectId } from '../subject.ts'
import { chamberMethods, machineTypeOf } from './method-of.ts'
import { cdcMonitoring, cdcPositiveIndicator } from './sources.ts'
import { noLotKnown } from './incubation.ts'
import { wantedIncubation } from './wanted-incubation.ts'

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
      .array(z.enum(['negative', 'positive', 'invalid', 'readEarly', 'notRead']))
      .describe(
        'Results since it was stopped or repaired, the oldest first; negative counts only with a control that grew; `readEarly` is no growth after half its time',
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
    const policy = casePolicy(given.limits)
    const wanted = wantedIncubation({ type: machineTypeOf[given.method] }, policy, noLotKnown).hours
    const loads = given.biological.map((result, index) => {
      const id: SubjectId<'load'> = `load:test-${index + 1}`
      return caseKnown('load', id, { machine, purpose: 'retest', biological: readingsOf(result, wanted) })
    })
    const state = caseKnown('machine', machine, {
      name: 'The steriliser',
      type: machineTypeOf[given.method],
      airRemoval: given.method === 'steam' ? given.airRemoval : 'none',
      airRemovalPasses: given.airRemovalPasses,
      service: { state: 'withdrawn', since: hoursAgo(48), why: 'given with the case' },
    })
    const facts = caseFacts(policy, [state], { loadsSinceStop: () => loads })
    const { findings, refused } = judge(rules, facts, caseEntry('machine-returned', { machine, why: 'asked' }))
    return { decision: refused ? 'staysOut' : 'returned', findings }
  },
})

function readingsOf(result: 'negative' | 'positive' | 'invalid' | 'readEarly' | 'notRead', wantedHours: number) {
  if (result === 'notRead') return []
  const grew = result === 'positive' ? ('growth' as const) : ('noGrowth' as const)
  const control = { lot: 'b', result: result === 'invalid' ? ('noGrowth' as const) : ('growth' as const) }
  const incubatedHours = result === 'readEarly' ? wantedHours / 2 : wantedHours
  return [caseStep(hoursAgo(1), { lot: 'b', result: grew, control, incubatedHours })]
}
