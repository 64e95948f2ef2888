import { minutesBetween } from '../../instant.ts'
import { figure, machineName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { biologicalEveryDays } from '../limits.ts'

/** A steriliser has a valid biological result at least each week. */
export const biologicalTestDue = defineRule({
  id: 'biological-test-due',
  says: 'A steriliser in use has a valid biological result at least as often as the policy asks.',
  on: ['load-built'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt }) {
    const machine = facts.known(body.machine)
    if (machine?.type !== 'steamSteriliser' || body.purpose !== 'goods') return []
    if (body.challenge?.biologicalLot !== undefined) return []
    const limit = facts.policy.limit(biologicalEveryDays)
    const last = facts.lastBiological(body.machine)
    const days = last === null ? undefined : minutesBetween(last, happenedAt) / 1440
    if (days !== undefined && days <= limit.value) return []
    return [
      {
        weight: 'caution',
        says: `The biological test of ${machineName(facts, body.machine)} is overdue. Put an indicator into this load.`,
        measured: days === undefined ? 'no valid result found' : `${figure(days, 1)} days ago`,
        limit: `every ${limit.value} days`,
        source: limit.source,
      },
    ]
  },
})
