import { minutesBetween } from '../../instant.ts'
import { figure, machineName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { leakTestEveryDays } from '../limits.ts'
import { airRemovalAt } from '../read-in-force.ts'

/** A steriliser that draws a vacuum is tested for leaks each week. */
export const leakTestDue = defineRule({
  id: 'leak-test-due',
  says: 'A steriliser with dynamic air removal is tested for leaks as often as the policy asks.',
  on: ['load-built'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt }) {
    const machine = facts.known(body.machine)
    if (machine === undefined || body.purpose !== 'goods') return []
    if (airRemovalAt(machine, happenedAt) !== 'dynamic') return []
    const limit = facts.policy.limit(leakTestEveryDays)
    const days = machine.leakTest === null ? undefined : minutesBetween(machine.leakTest.at, happenedAt) / 1440
    if (days !== undefined && days <= limit.value) return []
    return [
      {
        weight: 'caution',
        says: `The leak test of ${machineName(facts, body.machine)} is due. Run it before the next day's work.`,
        measured: days === undefined ? 'none recorded' : `${figure(days, 1)} days ago`,
        limit: `every ${limit.value} days`,
        source: limit.source,
      },
    ]
  },
})
