import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { st79Packs } from '../limits.ts'

/** A pack is sealed only if its set was washed since its last use. */
export const packedAfterWash = defineRule({
  id: 'packed-after-wash',
  says: 'A pack is sealed only if its set was washed on this round.',
  on: ['pack-sealed'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const round = facts.known(body.round)
    // A set that is new or was never opened is washed too: nobody knows where it has been.
    if (round === undefined || round.wash !== null) return []
    return [
      {
        weight: 'stop',
        says: `${packName(facts, body.round)} was not washed on this round. Wash and inspect it first.`,
        source: st79Packs,
      },
    ]
  },
})
