import { machineName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { wasOutAt } from '../../sterilising/outages.ts'
import { recordPractice } from '../../unit/limits.ts'

/** A wash runs on a washer that is in service, with a program that it has. */
export const washerKnown = defineRule({
  id: 'washer-known',
  says: 'A wash runs on a washer that is in service, with a program that the washer has.',
  on: ['wash-recorded'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt }) {
    const { how } = body
    if (how.kind !== 'washer') return []
    const machine = facts.known(how.machine)
    if (machine === undefined) return []
    const name = machineName(facts, how.machine)
    const wrong = [
      ...(machine.type === 'washer' ? [] : [`${name} is not a washer. Check which machine was used.`]),
      ...(wasOutAt(machine, happenedAt) ? [`${name} was out of service. Wash again in another one.`] : []),
      ...(machine.programs.includes(how.program) ? [] : [`${name} has no program "${how.program}". Check the name.`]),
    ]
    return wrong.map((says) => ({ weight: 'caution' as const, says, source: recordPractice }))
  },
})
