import { z } from 'zod'
import { defineTopic } from '../deciding/topic.ts'
import type { Finding } from '../finding.ts'
import { WoundClass } from './entries.ts'
import { Procedure, procedureFacts } from './procedures.ts'
import { cdcWoundClass, combinedOperations, neverClean } from './sources.ts'
import { woundClassReasons } from './wound-class.ts'

export const woundClassTopic = defineTopic({
  topic: 'wound-class',
  title: 'The wound class of an operation',
  decisions: {
    I: 'clean',
    II: 'clean-contaminated',
    III: 'contaminated',
    IV: 'dirty or infected',
    rejected: 'the class that was entered cannot be: correct it',
  },
  given: z.strictObject({
    procedures: z.array(Procedure).min(1).describe('The operations done through these wounds'),
    tractEntered: z.boolean().default(false).describe('A respiratory, alimentary, genital or urinary tract was opened'),
    inflammation: z.enum(['none', 'acuteNonPurulent', 'purulent']).default('none').describe('What was met at the site'),
    perforation: z.boolean().default(false).describe('A viscus was perforated before the operation'),
    deadTissue: z.boolean().default(false).describe('Dead or gangrenous tissue was met'),
    spill: z.enum(['none', 'sterileBile', 'infectedBile', 'grossBowel']).default('none').describe('What spilled'),
    breakInTechnique: z.enum(['none', 'minor', 'major']).default('none').describe('A break in sterile technique'),
    enteredAs: WoundClass.optional().describe('The class that somebody entered, to be checked'),
  }),
  sources: [cdcWoundClass, combinedOperations, neverClean],
  example: {
    given: { procedures: ['cholecystectomy'], inflammation: 'acuteNonPurulent' },
    decision: 'III',
  },
  decide(given) {
    const reasons = woundClassReasons(given)
    const [first] = reasons
    const findings: Finding[] = reasons
      .filter((reason) => reason.woundClass === first.woundClass)
      .map(({ says, source, woundClass }) => ({
        rule: 'wound-class',
        weight: 'note',
        says,
        measured: woundClass,
        source,
      }))
    if (given.enteredAs === undefined) return { decision: first.woundClass, findings }
    if (given.enteredAs === 'I' && given.procedures.some((procedure) => procedureFacts[procedure].neverClean)) {
      findings.unshift({
        rule: 'wound-class-never-clean',
        weight: 'stop',
        says: `This operation is never entered as clean. Enter ${first.woundClass}, or higher if more was met.`,
        measured: given.enteredAs,
        limit: first.woundClass,
        source: neverClean,
      })
      return { decision: 'rejected', findings }
    }
    if (given.enteredAs !== first.woundClass) {
      findings.unshift({
        rule: 'wound-class-as-met',
        weight: 'caution',
        says: `By what was met the class is ${first.woundClass}. Check the entry.`,
        measured: given.enteredAs,
        limit: first.woundClass,
        source: first.source,
      })
    }
    return { decision: first.woundClass, findings }
  },
})
