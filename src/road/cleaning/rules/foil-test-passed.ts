import { machineName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { foilTestEveryDays } from '../water-limits.ts'

/** An ultrasonic bath that leaves foil whole does not clean. */
export const foilTestPassed = defineRule({
  id: 'foil-test-passed',
  says: 'An ultrasonic bath eats away every strip of foil evenly.',
  on: ['foil-tested'],
  exceptionAllowed: false,
  check: (facts, { body }) =>
    body.result === 'passed'
      ? []
      : [
          {
            weight: 'stop',
            says: `${machineName(facts, body.machine)} failed its foil test. Take it out of service; change and degas the water, test again.`,
            measured: `${body.strips} strips, ${body.seconds} s`,
            source: foilTestEveryDays.source,
          },
        ],
})
