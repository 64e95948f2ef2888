import { kindNames } from '../../kinds.ts'
import { defineRule } from '../../rule.ts'
import { recordPractice } from '../../unit/limits.ts'

/** An exception is allowed by a person who is known and works here. */
export const exceptionBySomeoneHere = defineRule({
  id: 'exception-by-someone-here',
  says: 'An exception is allowed only by a person who is known and works here.',
  on: kindNames,
  exceptionAllowed: false,
  check(facts, entry) {
    if (entry.exception === undefined) return []
    const person = facts.known(entry.exception.allowedBy)
    if (person !== undefined && !person.left) return []
    return [
      {
        weight: 'stop',
        says: 'Whoever allows this exception is not known or no longer works here. Ask someone who does.',
        source: recordPractice,
      },
    ]
  },
})
