import { kindNames } from '../../kinds.ts'
import { defineRule } from '../../rule.ts'
import { recordPractice } from '../../unit/limits.ts'

/** An entry is made by a person who works here. */
export const enteredBySomeoneHere = defineRule({
  id: 'entered-by-someone-here',
  says: 'An entry is made by a person who works here.',
  on: kindNames,
  exceptionAllowed: false,
  check(facts, entry) {
    const person = facts.known(entry.by)
    if (person === undefined || !person.left) return []
    return [
      {
        weight: 'caution',
        says: `${person.name} no longer works here. Check that the right person is chosen on this screen.`,
        source: recordPractice,
      },
    ]
  },
})
