import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { soilFound } from '../cleaning-test.ts'

/** A set that failed a cleaning test is washed again before it is packed. */
export const packedCleanByTest = defineRule({
  id: 'packed-clean-by-test',
  says: 'A set whose cleaning test since its last wash was above the action level is not packed.',
  on: ['pack-sealed'],
  exceptionAllowed: false,
  check: (facts, { body }) =>
    (facts.known(body.round)?.cleaningTests ?? [])
      .flatMap((test) => soilFound(test, facts.policy))
      .filter((found) => found.weight === 'stop')
      .map((found) => ({ ...found, says: `${packName(facts, body.round)}: ${found.says}` })),
})
