import { packName } from '../../naming.ts'
import { inspectionPassed } from '../../round.ts'
import { defineRule } from '../../rule.ts'
import { st79Packs } from '../limits.ts'

/** A pack is sealed only if the inspection after the last wash was passed. */
export const packedAfterInspection = defineRule({
  id: 'packed-after-inspection',
  says: 'A pack is sealed only if its set passed the inspection after its last wash.',
  on: ['pack-sealed'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const round = facts.known(body.round)
    if (round === undefined) return []
    const name = packName(facts, body.round)
    if (round.inspection === null) {
      return [
        {
          weight: 'stop',
          says: `${name} was not inspected since its last wash. Inspect it under magnification first.`,
          source: st79Packs,
        },
      ]
    }
    if (inspectionPassed(round.inspection)) return []
    return [
      {
        weight: 'stop',
        says: `${name} did not pass its inspection. Put right what was found, wash if it was soil, and inspect again.`,
        source: st79Packs,
      },
    ]
  },
})
