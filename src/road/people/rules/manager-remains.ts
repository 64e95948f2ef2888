import { defineRule } from '../../rule.ts'
import { recordPractice } from '../../unit/limits.ts'

/**
 * Without a manager nobody could give rights, change a limit or unlock a person. That somebody left is a fact and is kept all
 * the same; whoever may write to the store then makes another manager by `nilgrowth record`.
 */
export const managerRemains = defineRule({
  id: 'manager-remains',
  says: 'The last manager of a unit neither leaves nor gives up that role.',
  on: ['person-registered', 'person-left'],
  exceptionAllowed: false,
  check(facts, entry) {
    const { person } = entry.body
    const before = facts.known(person)
    if (before === undefined || before.left || !before.roles.includes('manager')) return []
    if (entry.kind === 'person-registered' && entry.body.roles.includes('manager')) return []
    if (facts.managers().some((each) => each !== person)) return []
    return [
      {
        weight: 'stop',
        says: `${before.name} is the only manager. Give somebody else that role first.`,
        source: recordPractice,
      },
    ]
  },
})
