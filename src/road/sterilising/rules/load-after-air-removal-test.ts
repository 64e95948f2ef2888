import { defineRule } from '../../rule.ts'
import { airRemovalOfDay } from '../air-removal-of-day.ts'
import { cdcMonitoring } from '../sources.ts'

/** Goods run only after the day's air-removal test. */
export const loadAfterAirRemovalTest = defineRule({
  id: 'load-after-air-removal-test',
  says: 'A steriliser with dynamic air removal passes its air-removal test before the first goods of the day.',
  on: ['load-built'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt }) {
    const machine = facts.known(body.machine)
    if (machine === undefined || body.purpose !== 'goods') return []
    const state = airRemovalOfDay(machine, happenedAt, facts.dayOf)
    if (state === 'passed' || state === 'notRequired') return []
    return [
      {
        weight: 'stop',
        says:
          state === 'failed'
            ? 'The air-removal test of today failed. Run no goods: repeat it once; if it fails again, take the steriliser out of service.'
            : 'The air-removal test of today is not recorded. Run it in the empty, warm chamber before any goods.',
        source: cdcMonitoring,
      },
    ]
  },
})
