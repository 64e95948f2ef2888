import { packName } from '../../naming.ts'
import { defineRule, type Found } from '../../rule.ts'
import { biologicalOutcome, isReadTooEarly } from '../load-fold.ts'
import { releasedPacks } from '../released-packs.ts'
import { mmwrControl, st79Release } from '../sources.ts'
import { wantedIncubation } from '../wanted-incubation.ts'

/** An invalid biological result proves nothing: an implant is held. */
export const releaseBiologicalValid = defineRule({
  id: 'release-biological-valid',
  says: 'An implant is held while the biological result of its load is invalid; other packs may go, and the test is repeated.',
  on: ['load-decided'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const load = facts.known(body.load)
    if (load === undefined) return []
    const packs = releasedPacks(facts, body)
    const machine = load.machine === null ? undefined : facts.known(load.machine)
    const wanted = wantedIncubation(machine, facts.policy, (lot) => facts.known(lot))
    const outcome = biologicalOutcome(load, wanted)
    if (outcome === 'notRead') return pendingNote(packs.length > 0 && load.challenge?.biologicalLot !== undefined)
    if (outcome !== 'invalid' || packs.length === 0) return []
    const early = isReadTooEarly(load, wanted)
    // Read too early, the result is still to come: an implant waits for it by the rule of that.
    const implants = early ? [] : packs.filter((pack) => pack.implant)
    return [
      ...implants.map(({ id }): Found => ({
        weight: 'stop',
        says: `${packName(facts, id)} holds an implant and the biological result is invalid. Hold it and repeat the test.`,
        source: mmwrControl,
      })),
      {
        weight: 'note',
        says: early
          ? 'The biological indicator of this load was read before its time: it counts as not tested. Read it again when its time is over.'
          : 'The biological result of this load is invalid: it counts as not tested. Repeat the test with a control of the same lot.',
        source: mmwrControl,
      },
    ]
  },
})

function pendingNote(pending: boolean): readonly Found[] {
  if (!pending) return []
  return [
    {
      weight: 'note',
      says: 'The biological result is still to come. Packs without an implant may go; if it grows, a recall finds them.',
      source: st79Release,
    },
  ]
}
