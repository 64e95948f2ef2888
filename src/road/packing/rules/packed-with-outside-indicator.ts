import { defineRule } from '../../rule.ts'
import { st79Packs } from '../limits.ts'

/** A pack has a process indicator outside. */
export const packedWithOutsideIndicator = defineRule({
  id: 'packed-with-outside-indicator',
  says: 'A pack is sealed only with a type 1 indicator outside, that tells it has been through a cycle.',
  on: ['pack-sealed'],
  exceptionAllowed: false,
  check(_facts, { body }) {
    if (body.outsideIndicator !== null) return []
    return [
      {
        weight: 'stop',
        says: 'There is no indicator outside. Without it nobody can tell this pack from one that has not been sterilised.',
        source: st79Packs,
      },
    ]
  },
})
