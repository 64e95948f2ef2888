import { machineName } from '../../naming.ts'
import { defineRule, type Found } from '../../rule.ts'
import { returnAirRemoval, returnBiological } from '../limits.ts'
import type { WantedIncubation } from '../incubation.ts'
import { biologicalOutcome, type LoadKnown } from '../load-fold.ts'
import { methodOf } from '../method-of.ts'
import { wantedIncubation } from '../wanted-incubation.ts'

/** A steriliser goes back into service only when it is proven. */
export const machineReturnedProven = defineRule({
  id: 'machine-returned-proven',
  says: 'A steriliser goes back into service only after enough good biological results and air-removal tests in a row.',
  on: ['machine-returned'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const machine = facts.known(body.machine)
    if (machine === undefined || methodOf(machine) === undefined || machine.service.state === 'inService') return []
    const name = machineName(facts, body.machine)
    const found: Found[] = []
    const biological = facts.policy.limit(returnBiological)
    const row = goodInARow(
      facts.loadsSinceStop(body.machine),
      wantedIncubation(machine, facts.policy, (lot) => facts.known(lot)),
    )
    if (row < biological.value) {
      found.push({
        weight: 'stop',
        says: `${name} is not proven yet. Run biological tests, each with a control, until enough in a row are good since it was stopped or repaired.`,
        measured: `${row} in a row`,
        limit: `${biological.value} in a row`,
        source: biological.source,
      })
    }
    const airRemoval = facts.policy.limit(returnAirRemoval)
    if (machine.airRemoval === 'dynamic' && machine.airRemovalPasses < airRemoval.value) {
      found.push({
        weight: 'stop',
        says: `${name} has not passed enough air-removal tests since it was stopped or repaired. Run the rest.`,
        measured: `${machine.airRemovalPasses} in a row`,
        limit: `${airRemoval.value} in a row`,
        source: airRemoval.source,
      })
    }
    return found
  },
})

/** Good results at the end of the row: growth starts it anew, an unread or invalid result does not count. */
function goodInARow(loads: readonly LoadKnown[], wanted: WantedIncubation): number {
  let row = 0
  for (const load of loads) {
    const outcome = biologicalOutcome(load, wanted)
    if (outcome === 'positive' || load.cycle?.report.verdict === 'notMet') row = 0
    else if (outcome === 'negative') row += 1
  }
  return row
}
