import { machineName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { methodOf } from '../method-of.ts'
import { returnAirRemoval, returnBiological } from '../limits.ts'

/** After a major repair a steriliser is proven anew. */
export const repairNeedsProof = defineRule({
  id: 'repair-needs-proof',
  says: 'After a major repair a steriliser is out of service until it is proven again.',
  on: ['machine-repaired'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const machine = facts.known(body.machine)
    if (
      !body.major ||
      machine === undefined ||
      methodOf(machine) === undefined ||
      machine.service.state === 'withdrawn'
    )
      return []
    const tests = facts.policy.limit(returnAirRemoval).value
    const limit = facts.policy.limit(returnBiological)
    return [
      {
        weight: 'caution',
        says: `After this repair ${machineName(facts, body.machine)} must be proven again. Take it out of service until ${limit.value} biological tests${machine.airRemoval === 'dynamic' ? ` and ${tests} air-removal tests` : ''} in a row are good.`,
        source: limit.source,
      },
    ]
  },
})
