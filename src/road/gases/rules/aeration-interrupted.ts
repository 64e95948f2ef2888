import { defineRule } from '../../rule.ts'
import { aeratedHours } from '../load-gas.ts'
import { pairRule } from '../sources.ts'

/** Two short aerations do not add up: one that was interrupted is done again from the beginning. */
export const aerationInterrupted = defineRule({
  id: 'aeration-interrupted',
  says: 'An aeration that is cancelled or interrupted counts for nothing: the load stays held and is aerated again for the whole time.',
  on: ['aeration-stopped'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt }) {
    const gas = facts.known(body.load)?.gas
    if (gas === undefined || gas.aeration === null) {
      return [{ weight: 'caution', says: 'No aeration of this load is known to run.', source: pairRule }]
    }
    if (gas.aerated !== null) {
      return [
        {
          weight: 'caution',
          says: 'The aeration of this load has already ended. If its end was recorded by mistake, withdraw that entry.',
          source: pairRule,
        },
      ]
    }
    const hours = aeratedHours(gas, happenedAt) ?? 0
    return [
      {
        weight: 'stop',
        says: 'The aeration was interrupted. The load stays held: close the door and aerate it again for the whole time; the time until now does not count.',
        measured: `${Number(hours.toFixed(1))} h until ${body.cause === 'doorOpened' ? 'the door was opened' : 'it stopped'}`,
        source: pairRule,
      },
    ]
  },
})
