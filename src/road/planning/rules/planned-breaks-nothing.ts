import { sentence } from '#units/sentence.ts'
import { defineRule } from '../../rule.ts'
import { planningDefaults } from '../sources.ts'

/** A list that breaks a rule of the day is kept, and marked. */
export const plannedBreaksNothing = defineRule({
  id: 'planned-breaks-nothing',
  says: 'A list that is kept breaks no hour, no latest start and waits for every set; what it breaks is said.',
  on: ['list-planned'],
  exceptionAllowed: false,
  check(_facts, { body }) {
    return body.breaks.map((each) => ({
      weight: 'caution' as const,
      says: sentence(`This list breaks: ${each}`),
      source: planningDefaults,
    }))
  },
})
