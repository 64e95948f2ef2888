import { minutesBetween } from '../../instant.ts'
import { figure } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { loanKnownHours, loanNewHours } from '../limits.ts'

/** A borrowed set comes early enough to be cleaned, sterilised and its indicator read. */
export const loanArrivesInTime = defineRule({
  id: 'loan-arrives-in-time',
  says: 'A loan set arrives long enough before its case, longer when it is new here.',
  on: ['loan-arrived'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt }) {
    const { value, source } = facts.policy.limit(body.known ? loanKnownHours : loanNewHours)
    const hours = minutesBetween(happenedAt, body.neededAt) / 60
    if (hours >= value) return []
    return [
      {
        weight: 'stop',
        says: `${body.name} came too late: put the case off or use another set. Lateness is no reason for immediate-use steam.`,
        measured: `${figure(hours, 1)} h before the case`,
        limit: `${value} h`,
        source,
      },
    ]
  },
})
