import { atLeast, atMost } from '#workings/physics/at-most.ts'
import { leakRateKPaPerMinute } from '#workings/physics/leak-rate.ts'
import { figure, machineName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { leakKPaPerMinute, leakSettlingSeconds, leakTestSeconds } from '../limits.ts'

/** The chamber is tight: its pressure rises no faster than the limit. */
export const leakTestPassed = defineRule({
  id: 'leak-test-passed',
  says: 'In a leak test the pressure rises no faster than the limit, over a long enough time after settling.',
  on: ['leak-tested'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const limit = facts.policy.limit(leakKPaPerMinute)
    const long = facts.policy.limit(leakTestSeconds)
    const settling = facts.policy.limit(leakSettlingSeconds)
    const name = machineName(facts, body.machine)
    const rate = body.seconds > 0 ? leakRateKPaPerMinute(body.startKPa, body.endKPa, body.seconds) : undefined
    if (rate !== undefined && !atMost(rate, limit.value)) {
      return [
        {
          weight: 'stop',
          says: `${name} leaks: air gets in while it draws its vacuum. Take it out of service and call the engineer.`,
          measured: `${figure(rate, 3)} kPa/min`,
          limit: `${limit.value} kPa/min`,
          source: limit.source,
        },
      ]
    }
    const settled = body.stabilisationSeconds === undefined || atLeast(body.stabilisationSeconds, settling.value)
    // A pressure that falls fast was still being pumped.
    const steady = rate !== undefined && atLeast(rate, -limit.value)
    if (atLeast(body.seconds, long.value) && settled && steady) return []
    return [
      {
        weight: 'notEvaluable',
        says: `The leak test of ${name} was too short or not settled, so it proves nothing. Run it again.`,
        measured: `${body.seconds} s after ${body.stabilisationSeconds ?? 'unknown'} s of settling`,
        limit: `${long.value} s after ${settling.value} s`,
        source: long.source,
      },
    ]
  },
})
