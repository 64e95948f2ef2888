import { defineRule, type Found } from '../../rule.ts'
import { setMassKg } from '../../packing/limits.ts'
import { loanGuidance } from '../sources.ts'

/** A borrowed set comes with its instructions, and not too heavy. */
export const loanWithInstructions = defineRule({
  id: 'loan-with-instructions',
  says: 'A loan set comes with the instructions of its maker, weighed and not too heavy.',
  on: ['loan-arrived'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const found: Found[] = []
    if (!body.instructionsOnFile) {
      found.push({
        weight: 'notEvaluable',
        says: `No instructions on file for ${body.name}. Get them from the lender before it is washed.`,
        source: loanGuidance,
      })
    }
    const { value, source } = facts.policy.limit(setMassKg)
    if (body.massKg === undefined) {
      found.push({ weight: 'notEvaluable', says: `${body.name} was not weighed. Weigh it.`, source })
    } else if (body.massKg > value) {
      found.push({
        weight: 'stop',
        says: `${body.name} is too heavy. Split it before it is packed.`,
        measured: `${body.massKg} kg`,
        limit: `${value} kg`,
        source,
      })
    }
    return found
  },
})
