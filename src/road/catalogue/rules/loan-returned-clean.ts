import { defineRule } from '../../rule.ts'
import { loanGuidance } from '../sources.ts'

/** A borrowed set goes back clean and whole. */
export const loanReturnedClean = defineRule({
  id: 'loan-returned-clean',
  says: 'A loan set is decontaminated and counted before it goes back.',
  on: ['loan-returned'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const name = facts.known(body.set)?.name ?? body.set
    return [
      ...(body.decontaminated
        ? []
        : [
            {
              weight: 'stop' as const,
              says: `${name} was sent back uncleaned. Tell the lender, and have it taken as contaminated.`,
              source: loanGuidance,
            },
          ]),
      ...(body.complete
        ? []
        : [
            {
              weight: 'caution' as const,
              says: `${name} was sent back with something missing. Look for it here.`,
              source: loanGuidance,
            },
          ]),
    ]
  },
})
