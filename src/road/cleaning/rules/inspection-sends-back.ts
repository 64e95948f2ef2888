import { inspectionPassed } from '../../round.ts'
import { defineRule } from '../../rule.ts'
import { st79Cleaning } from '../limits.ts'

/** What is soiled, wet or broken goes back. */
export const inspectionSendsBack = defineRule({
  id: 'inspection-sends-back',
  says: 'A set that is soiled, wet, faulty or has failed insulation goes back and is not packed.',
  on: ['inspected'],
  exceptionAllowed: false,
  check(_facts, { body }) {
    if (inspectionPassed(body)) return []
    const why = [
      ...(body.cleanliness === 'soilSeen' ? ['soil was seen: wash again'] : []),
      ...(body.dry ? [] : ['it is wet: dry it']),
      ...(body.function === 'faulty' ? ['it does not work: take it out for repair'] : []),
      ...(body.insulation === 'failed' ? ['its insulation failed: take it out for repair'] : []),
    ]
    return [{ weight: 'caution', says: `Goes back: ${why.join('; ')}.`, source: st79Cleaning }]
  },
})
