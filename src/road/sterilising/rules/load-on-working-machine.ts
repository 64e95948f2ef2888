import { machineName } from '../../naming.ts'
import { defineRule, type Found } from '../../rule.ts'
import { methodOf } from '../method-of.ts'
import { wasOutAt } from '../outages.ts'
import { cdcPositiveIndicator, releaseTable } from '../sources.ts'

/** Goods run only on a steriliser that is in service. */
export const loadOnWorkingMachine = defineRule({
  id: 'load-on-working-machine',
  says: 'A load of goods runs on a steriliser that is in service and under no open recall.',
  on: ['load-built'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt }) {
    const machine = facts.known(body.machine)
    if (machine === undefined) return []
    const name = machineName(facts, body.machine)
    const found: Found[] = []
    if (methodOf(machine) === undefined) {
      found.push({ weight: 'stop', says: `${name} is not a steriliser.`, source: releaseTable })
    }
    if (body.purpose !== 'goods') return found
    if (wasOutAt(machine, happenedAt)) {
      const { state, why } = machine.service
      found.push({
        weight: 'stop',
        says:
          state === 'withdrawn'
            ? `${name} is out of service (${why}). Do not start this load; use another steriliser.`
            : `${name} was out of service at the time of this load. Correct the time if it is wrong; else no pack of it can be released.`,
        source: cdcPositiveIndicator,
      })
    } else if (facts.recallsOfMachine(body.machine).length > 0) {
      found.push({
        weight: 'stop',
        says: `${name} has a failure that is not cleared up. Take it out of service and run the repeat tests before any goods.`,
        source: cdcPositiveIndicator,
      })
    }
    return found
  },
})
