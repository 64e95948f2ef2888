import { minutesBetween } from '../../instant.ts'
import { kindNames } from '../../kinds.ts'
import { spoken } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { clockAheadMinutes } from '../limits.ts'

/** What is recorded has happened. */
export const notInTheFuture = defineRule({
  id: 'not-in-the-future',
  says: 'What is recorded has happened; a time in the future means a wrong clock.',
  on: kindNames,
  exceptionAllowed: false,
  check(facts, entry) {
    const limit = facts.policy.limit(clockAheadMinutes)
    const ahead = minutesBetween(facts.now, entry.happenedAt)
    if (ahead <= limit.value) return []
    return [
      {
        weight: 'caution',
        says: 'The time given lies in the future. Check the clock of this device.',
        measured: `${spoken(ahead)} ahead`,
        limit: `${limit.value} min`,
        source: limit.source,
      },
    ]
  },
})
