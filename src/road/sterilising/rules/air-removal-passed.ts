import { machineName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { unverifiedPractice } from '../sources.ts'

/** A failed air-removal test keeps the steriliser from goods. */
export const airRemovalPassed = defineRule({
  id: 'air-removal-passed',
  says: 'A failed air-removal test is repeated once; a second failure takes the steriliser out of service.',
  on: ['air-removal-tested'],
  exceptionAllowed: false,
  check(facts, { body, corrects }) {
    if (body.result === 'passed') return []
    const before = corrects === undefined ? facts.known(body.machine)?.airRemovalTests.at(-1) : undefined
    const name = machineName(facts, body.machine)
    return [
      {
        weight: 'stop',
        says:
          before?.result === 'failed'
            ? `${name} failed its air-removal test again. Take it out of service; three passes are needed after the repair.`
            : `${name} failed its air-removal test. Run no goods. Repeat the test once in the empty, warm chamber.`,
        source: unverifiedPractice,
      },
    ]
  },
})
