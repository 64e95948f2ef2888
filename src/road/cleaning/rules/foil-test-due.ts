import { minutesBetween } from '../../instant.ts'
import { machineName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { foilTestEveryDays } from '../water-limits.ts'

/** An ultrasonic bath is tested with foil every quarter. */
export const foilTestDue = defineRule({
  id: 'foil-test-due',
  says: 'An ultrasonic bath that is used has passed a foil test within its interval.',
  on: ['wash-recorded'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt }) {
    const id = body.how.kind === 'manual' ? body.how.ultrasoundMachine : undefined
    const machine = id === undefined ? undefined : facts.known(id)
    if (id === undefined || machine === undefined) return []
    const limit = facts.policy.limit(foilTestEveryDays)
    const test = machine.foilTest ?? null
    const days = test === null ? null : minutesBetween(test.at, happenedAt) / 1440
    if (test !== null && test.result === 'passed' && days !== null && days <= limit.value) return []
    const name = machineName(facts, id)
    return [
      {
        weight: 'caution',
        says:
          test?.result === 'failed'
            ? `${name} failed its last foil test. Clean in another bath.`
            : `The foil test of ${name} is due.`,
        measured: days === null ? 'never tested' : `${Math.floor(days)} days ago`,
        limit: `${limit.value} days`,
        source: limit.source,
      },
    ]
  },
})
