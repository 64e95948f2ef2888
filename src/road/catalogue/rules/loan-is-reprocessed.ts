import { defineRule } from '../../rule.ts'
import { loanGuidance } from '../sources.ts'

/** What the lender calls sterile was carried about and opened to be counted. */
export const loanIsReprocessed = defineRule({
  id: 'loan-is-reprocessed',
  says: 'A loan set is treated as contaminated on arrival, even when it is declared sterile.',
  on: ['loan-arrived'],
  exceptionAllowed: false,
  check(_facts, { body }) {
    if (!body.declaredSterile) return []
    return [
      {
        weight: 'stop',
        says: `${body.name} is declared sterile. Take it as contaminated: count, wash, inspect and sterilise it here.`,
        source: loanGuidance,
      },
    ]
  },
})
