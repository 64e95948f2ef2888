import { machineName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { airRemovalAt } from '../read-in-force.ts'
import { cdcMonitoring } from '../sources.ts'

/** Only a steriliser with dynamic air removal has an air-removal test. */
export const airRemovalOnDynamic = defineRule({
  id: 'air-removal-on-dynamic',
  says: 'An air-removal test says something only of a steriliser with dynamic air removal.',
  on: ['air-removal-tested'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt }) {
    const machine = facts.known(body.machine)
    if (machine === undefined || airRemovalAt(machine, happenedAt) === 'dynamic') return []
    return [
      {
        weight: 'note',
        says: `${machineName(facts, body.machine)} does not draw a vacuum: it needs no air-removal test, and this one proves nothing of it.`,
        source: cdcMonitoring,
      },
    ]
  },
})
