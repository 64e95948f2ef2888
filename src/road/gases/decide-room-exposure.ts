import { z } from 'zod'
import { casePolicy, ChangedLimits } from '../deciding/case-policy.ts'
import { defineTopic } from '../deciding/topic.ts'
import { decided } from './accepted.ts'
import { ExposureFigures, exposureFound, surveillanceDue } from './room-exposure.ts'
import { airTable, gasInAir, surveillanceDays } from './sources.ts'

export const roomExposureTopic = defineTopic({
  topic: 'room-exposure',
  title: 'Did a person breathe in too much?',
  decisions: {
    overLimit: 'A limit is passed.',
    surveillanceDue: 'A physician must follow the person.',
    actionLevel: 'At the action level and below the limits.',
    within: 'Below the action level and all limits.',
    hold: 'Not measured long enough to tell.',
  },
  given: z.strictObject({
    limits: ChangedLimits,
    ...ExposureFigures.shape,
    unlisted: ExposureFigures.shape.unlisted.default('unknown'),
    /** Days of the last year on which this person was at the action level. */
    daysAtActionLevel: z.int().min(0).max(366).default(0),
  }),
  sources: [gasInAir, airTable, surveillanceDays],
  example: {
    given: { vapour: 'glutaraldehyde', periods: [{ minutes: 15, ppm: 0.06 }] },
    decision: 'overLimit',
  },
  decide({ limits, daysAtActionLevel, ...figures }) {
    const policy = casePolicy(limits)
    const due = surveillanceDue(daysAtActionLevel, policy)
    const found = [...exposureFound(figures, policy), ...due]
    const weights = new Set(found.filter((each) => !due.includes(each)).map((each) => each.weight))
    if (weights.has('stop')) return decided('room-exposure', 'overLimit', found)
    if (due.length > 0) return decided('room-exposure', 'surveillanceDue', found)
    if (weights.has('caution')) return decided('room-exposure', 'actionLevel', found)
    return decided('room-exposure', weights.has('notEvaluable') ? 'hold' : 'within', found)
  },
})
