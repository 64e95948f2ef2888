import { defineRule } from '../../rule.ts'
import { releaseTable } from '../sources.ts'

/** A cycle that missed its criteria sterilised nothing. */
export const cycleMet = defineRule({
  id: 'cycle-met',
  says: 'A cycle meets all criteria of its program; one that does not makes the load unsterile.',
  on: ['cycle-logged'],
  exceptionAllowed: false,
  check(_facts, { body }) {
    const { verdict, criteria } = body.report
    if (verdict === 'met') return []
    const missed = criteria.filter((criterion) => criterion.result === verdict).map((criterion) => criterion.id)
    const named = missed.length === 0 ? '' : ` (${missed.join(', ')})`
    return [
      verdict === 'notMet'
        ? {
            weight: 'stop',
            says: `This cycle failed${named}. Nothing in the load is sterile: reject every pack and start new rounds.`,
            source: releaseTable,
          }
        : {
            weight: 'notEvaluable',
            says: `This log does not prove the cycle${named}. Keep the load back and find the missing record.`,
            source: releaseTable,
          },
    ]
  },
})
