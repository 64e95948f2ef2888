import { packName } from '../../naming.ts'
import { defineRule, type Found } from '../../rule.ts'
import { biologicalOutcome } from '../load-fold.ts'
import { releasedPacks } from '../released-packs.ts'
import { mmwrControl, st79Release } from '../sources.ts'

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
    const outcome = biologicalOutcome(load)
    if (outcome === 'notRead') return pendingNote(packs.length > 0 && load.challenge?.biologicalLot !== undefined)
    if (outcome !== 'invalid' || packs.length === 0) return []
    const implants = packs.filter((pack) => pack.implant)
    return [
      ...implants.map(({ id }): Found => ({
        weight: 'stop',
        says: `${packName(facts, id)} holds an implant and the biological result is invalid. Hold it and repeat the test.`,
        source: mmwrControl,
      })),
      {
        weight: 'note',
        says: 'The biological result of this load is invalid: it counts as not tested. Repeat the test with a control of the same lot.',
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
