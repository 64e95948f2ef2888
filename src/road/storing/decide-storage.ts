import { z } from 'zod'
import { caseEntry, caseFacts, caseKnown } from '../deciding/case-facts.ts'
import { ChangedLimits, casePolicy } from '../deciding/case-policy.ts'
import { defineTopic } from '../deciding/topic.ts'
import { judge } from '../judge.ts'
import { rules } from '../rules.ts'
import { PackCondition } from './entries.ts'
import { packIntegrity, storageClimate } from './sources.ts'

export const storageTopic = defineTopic({
  topic: 'storage',
  title: 'Is a stored pack still sterile, and is its store as it should be?',
  decisions: {
    sterile: 'dry, whole, within its date if it has one: the pack stays sterile however long it lay there',
    alertAndAssess:
      'the store is outside its limits: find out why and look at the packs; none is condemned by that alone',
    notSterile: 'the pack lost its sterility by an event, or its date is over: reprocess it',
  },
  given: z.strictObject({
    temperatureC: z.number().optional(),
    humidityPercent: z.number().min(0).max(100).optional(),
    pack: PackCondition.default('intact').describe('What is seen on the pack'),
    pastDate: z.boolean().default(false).describe('The pack has a date and it is over'),
    daysStored: z.number().nonnegative().optional().describe('Days on the shelf: they decide nothing by themselves'),
    limits: ChangedLimits,
  }),
  sources: [packIntegrity, storageClimate],
  example: { given: { temperatureC: 25, humidityPercent: 65 }, decision: 'alertAndAssess' },
  decide(given) {
    const facts = caseFacts(casePolicy(given.limits), [caseKnown('round', 'round:case', {})])
    const seen = judge(
      rules,
      facts,
      caseEntry('pack-condition-noted', { round: 'round:case', condition: given.pack }),
    ).findings
    const expired = given.pastDate
      ? [
          {
            rule: 'opened-in-date',
            weight: 'stop' as const,
            says: 'The date of the pack is over. Reject it and start a new round.',
            source: packIntegrity,
          },
        ]
      : []
    const climate =
      given.temperatureC === undefined || given.humidityPercent === undefined
        ? []
        : judge(
            rules,
            facts,
            caseEntry('storage-measured', {
              unit: 'unit:case',
              place: 'store',
              temperatureC: given.temperatureC,
              humidityPercent: given.humidityPercent,
            }),
          ).findings
    const findings = [...seen, ...expired, ...climate]
    if (findings.some((finding) => finding.weight === 'stop')) return { decision: 'notSterile', findings }
    return { decision: climate.length > 0 ? 'alertAndAssess' : 'sterile', findings }
  },
})
