import { machineName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { loadTime } from '../load-fold.ts'
import { methodOf } from '../method-of.ts'
import { wasOutDuring } from '../outages.ts'
import { releasedPacks } from '../released-packs.ts'
import { cdcPositiveIndicator, releaseTable } from '../sources.ts'

/** Nothing is released that was run while the steriliser was out of service. */
export const releaseFromWorkingMachine = defineRule({
  id: 'release-from-working-machine',
  says: 'No pack is released from a load that ran while its steriliser was out of service, or on a machine that is no steriliser.',
  on: ['load-decided'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const load = facts.known(body.load)
    const machine = load === undefined || load.machine === null ? undefined : facts.known(load.machine)
    if (load === undefined || machine === undefined || releasedPacks(facts, body).length === 0) return []
    const name = machineName(facts, machine.id)
    if (methodOf(machine) === undefined) {
      return [
        {
          weight: 'stop',
          says: `${name} is no steriliser: nothing in this load is sterile. Correct the machine of the load if it is the wrong one; otherwise reject the packs.`,
          source: releaseTable,
        },
      ]
    }
    const until = loadTime(load)
    const isOut = machine.service.state === 'withdrawn'
    const during =
      until === null ? isOut : wasOutDuring(machine, { from: load.cycle?.startedAt ?? load.builtAt ?? until, until })
    if (!during && !isOut) return []
    return [
      {
        weight: during ? 'stop' : 'caution',
        says: during
          ? `${name} was out of service when this load ran. Reject the packs and run them elsewhere.`
          : `${name} was taken out of service after this load (${machine.service.why}). Make sure that the reason does not touch this load.`,
        source: cdcPositiveIndicator,
      },
    ]
  },
})
