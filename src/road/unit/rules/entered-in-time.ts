import { madeAt } from '../../entry.ts'
import { minutesBetween } from '../../instant.ts'
import { kindNames } from '../../kinds.ts'
import { figure } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { lateEntryHours } from '../limits.ts'

/** A step is entered when it is done. */
export const enteredInTime = defineRule({
  id: 'entered-in-time',
  says: 'A step is entered when it is done; an entry made much later is marked.',
  on: kindNames,
  exceptionAllowed: false,
  check(facts, entry) {
    const limit = facts.policy.limit(lateEntryHours)
    // By when the entry was made, not when it arrived: one that waited for the network was made in time.
    const hours = minutesBetween(entry.happenedAt, madeAt(entry.id)) / 60
    if (hours <= limit.value) return []
    return [
      {
        weight: 'note',
        says: 'This was entered late. It is kept, and marked as a late entry.',
        measured: `${figure(hours, 0)} h after it happened`,
        limit: `${limit.value} h`,
        source: limit.source,
      },
    ]
  },
})
