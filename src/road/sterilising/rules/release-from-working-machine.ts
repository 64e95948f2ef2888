import { machineName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { loadTime } from '../load-fold.ts'
import { releasedPacks } from '../released-packs.ts'
import { cdcPositiveIndicator } from '../sources.ts'

/** Nothing is released that was run while the steriliser was out of service. */
export const releaseFromWorkingMachine = defineRule({
  id: 'release-from-working-machine',
  says: 'No pack is released from a load that ran while its steriliser was out of service.',
  on: ['load-decided'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const load = facts.known(body.load)
    const machine = load === undefined || load.machine === null ? undefined : facts.known(load.machine)
    if (load === undefined || machine === undefined || machine.service.state !== 'withdrawn') return []
    if (releasedPacks(facts, body).length === 0) return []
    const ran = loadTime(load)
    const name = machineName(facts, machine.id)
    const during = ran === null || machine.service.since === null || ran >= machine.service.since
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
