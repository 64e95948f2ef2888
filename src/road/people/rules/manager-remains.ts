import type { TypedSent } from '../../kinds.ts'
import { defineRule } from '../../rule.ts'
import type { SubjectId } from '../../subject.ts'
import { recordPractice } from '../../unit/limits.ts'

/**
 * Without a manager nobody could give rights, change a limit or unlock a person. That somebody left is a fact and is kept all
 * the same; whoever may write to the store then makes another manager by `nilgrowth record`.
 */
export const managerRemains = defineRule({
  id: 'manager-remains',
  says: 'The last manager of a unit neither leaves nor gives up that role, nor is the registration withdrawn.',
  on: ['person-registered', 'person-left', 'entry-withdrawn'],
  exceptionAllowed: false,
  check(facts, entry) {
    const person = entry.kind === 'entry-withdrawn' ? registeredBy(facts.corrected()) : entry.body.person
    const before = person && facts.known(person)
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

/** Whose registration it is: without it a person is known no more, whichever of its corrections was named. */
function registeredBy(withdrawn: TypedSent | undefined): SubjectId<'person'> | undefined {
  return withdrawn?.kind === 'person-registered' ? withdrawn.body.person : undefined
}
