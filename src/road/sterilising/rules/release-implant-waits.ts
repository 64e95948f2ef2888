import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { isRead, isResultAwaited } from '../load-fold.ts'
import { releasedPacks } from '../released-packs.ts'
import { st79Release } from '../sources.ts'
import { wantedIncubation } from '../wanted-incubation.ts'

/** An implant waits for the biological result. */
export const releaseImplantWaits = defineRule({
  id: 'release-implant-waits',
  says: 'A pack with an implant is released only after the biological indicator of its load shows no growth; earlier only as a recorded emergency.',
  on: ['load-decided'],
  exceptionAllowed: true,
  check(facts, { body }) {
    const load = facts.known(body.load)
    if (load === undefined) return []
    const machine = load.machine === null ? undefined : facts.known(load.machine)
    if (
      !isResultAwaited(
        load,
        wantedIncubation(machine, facts.policy, (lot) => facts.known(lot)),
      )
    )
      return []
    return releasedPacks(facts, body)
      .filter((pack) => pack.implant)
      .map(({ id }) => ({
        weight: 'stop' as const,
        says: `${packName(facts, id)} holds an implant and its biological result is ${isRead(load) ? 'read too early: it proves nothing yet' : 'not read'}. Quarantine it until then.`,
        source: st79Release,
      }))
  },
})
