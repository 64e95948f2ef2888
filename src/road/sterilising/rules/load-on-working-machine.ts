import { machineName } from '../../naming.ts'
import { defineRule, type Found } from '../../rule.ts'
import { methodOf } from '../method-of.ts'
import { cdcPositiveIndicator, releaseTable } from '../sources.ts'

/** Goods run only on a steriliser that is in service. */
export const loadOnWorkingMachine = defineRule({
  id: 'load-on-working-machine',
  says: 'A load of goods runs on a steriliser that is in service and under no open recall.',
  on: ['load-built'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const machine = facts.known(body.machine)
    if (machine === undefined) return []
    const name = machineName(facts, body.machine)
    const found: Found[] = []
    if (methodOf(machine) === undefined) {
      found.push({ weight: 'stop', says: `${name} is not a steriliser.`, source: releaseTable })
    }
    if (body.purpose !== 'goods') return found
    if (machine.service.state === 'withdrawn') {
      found.push({
        weight: 'stop',
        says: `${name} is out of service (${machine.service.why}). Do not start this load; use another steriliser.`,
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
