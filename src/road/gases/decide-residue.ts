import { z } from 'zod'
import { casePolicy, ChangedLimits } from '../deciding/case-policy.ts'
import { defineTopic } from '../deciding/topic.ts'
import type { Found } from '../rule.ts'
import { decided } from './accepted.ts'
import { ResidueFigures, residueOver } from './residue.ts'
import { residueDoses } from './residue-limits.ts'
import { residueSuperseded, residueTable, residueTogether } from './sources.ts'

export const residueTopic = defineTopic({
  topic: 'residue',
  title: 'Is too much ethylene oxide left on a device?',
  decisions: {
    pass: 'Every limit of the contact holds.',
    fail: 'A limit is passed: do not use the device.',
    hold: 'A figure that must be known was not measured.',
    superseded: 'The limit that was named is no longer in force.',
  },
  given: z.strictObject({
    limits: ChangedLimits,
    ...ResidueFigures.shape,
    /** A limit that somebody wants to judge by instead, mg of ethylene oxide in the first day. */
    statedFirstDayLimitMg: z.number().positive().optional(),
  }),
  sources: [residueTable, residueTogether],
  example: { given: { contact: 'limited', eoMg: { firstDay: 4.1 } }, decision: 'fail' },
  decide({ limits, statedFirstDayLimitMg: stated, ...figures }) {
    const policy = casePolicy(limits)
    const inForce = policy.limit(residueDoses.eo.firstDay)
    if (stated !== undefined && stated > inForce.value) {
      const old: Found = {
        weight: 'stop',
        says: 'The limit named here is laxer than the one in force. Judge by the one in force.',
        measured: `${stated} mg`,
        limit: `${inForce.value} mg`,
        source: residueSuperseded,
      }
      return decided('residue', 'superseded', [old])
    }
    const found = residueOver(figures, policy)
    if (found.some((each) => each.weight === 'stop')) return decided('residue', 'fail', found)
    return decided('residue', found.length === 0 ? 'pass' : 'hold', found)
  },
})
