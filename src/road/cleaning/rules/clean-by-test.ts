import { defineRule } from '../../rule.ts'
import { soilFound } from '../cleaning-test.ts'

/** What is left on an instrument after washing is held against alert and action levels. */
export const cleanByTest = defineRule({
  id: 'clean-by-test',
  says: 'What is left on an instrument after washing stays below the alert level; above the action level it is washed again.',
  on: ['cleaning-tested'],
  exceptionAllowed: false,
  check: (facts, { body }) => soilFound(body, facts.policy),
})
