import { defineRule } from '../../rule.ts'
import { recordPractice } from '../../unit/limits.ts'

/** A case ends after it starts. */
export const caseTimesInOrder = defineRule({
  id: 'case-times-in-order',
  says: 'A case ends after it starts.',
  on: ['case-recorded'],
  exceptionAllowed: false,
  check(_facts, { body }) {
    if (body.endedAt >= body.startedAt) return []
    return [
      {
        weight: 'caution',
        says: 'This case ends before it starts. Correct the wrong time.',
        measured: body.endedAt,
        limit: `after ${body.startedAt}`,
        source: recordPractice,
      },
    ]
  },
})
