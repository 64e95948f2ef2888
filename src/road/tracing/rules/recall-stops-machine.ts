import { machineName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { cdcPositiveIndicator } from '../../sterilising/sources.ts'

/** A recall takes its steriliser out of service. */
export const recallStopsMachine = defineRule({
  id: 'recall-stops-machine',
  says: 'A steriliser is taken out of service when a load of it is recalled.',
  on: ['recall-opened'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const machine = facts.known(body.load)?.machine ?? null
    if (machine === null || facts.known(machine)?.service.state !== 'inService') return []
    return [
      {
        weight: 'caution',
        says: `${machineName(facts, machine)} is still in service. Take it out now, and tell infection control.`,
        source: cdcPositiveIndicator,
      },
    ]
  },
})
