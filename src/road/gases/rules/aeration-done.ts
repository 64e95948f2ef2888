import { defineRule } from '../../rule.ts'
import { aerationHolds } from '../aeration.ts'
import { aeratedHours } from '../load-gas.ts'
import { pairRule } from '../sources.ts'

/** An aeration that ends too early is alarmed. */
export const aerationDone = defineRule({
  id: 'aeration-done',
  says: 'An aeration ends when a listed pair of temperature and time is met; one that ends earlier begins anew.',
  on: ['aeration-ended'],
  exceptionAllowed: false,
  check(facts, { body, happenedAt }) {
    const gas = facts.known(body.load)?.gas
    const aeration = gas?.aeration ?? null
    if (gas === undefined || aeration === null) {
      return [
        { weight: 'stop', says: 'No start of this aeration is recorded. Record it, or start anew.', source: pairRule },
      ]
    }
    const hours = aeratedHours({ ...gas, aerated: null }, happenedAt) ?? 0
    return aerationHolds({ temperatureC: body.lowestC, hours, makerHours: aeration.makerHours }, facts.policy)
  },
})
