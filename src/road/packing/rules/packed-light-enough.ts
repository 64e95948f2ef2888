import { atMost } from '#workings/physics/at-most.ts'
import { packName } from '../../naming.ts'
import { defineRule } from '../../rule.ts'
import { setMassKg } from '../limits.ts'

/** A pack is light enough to come out dry. */
export const packedLightEnough = defineRule({
  id: 'packed-light-enough',
  says: 'A pack is not heavier than the greatest mass of a set, wrap included.',
  on: ['pack-sealed'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const limit = facts.policy.limit(setMassKg)
    if (body.massKg === undefined || atMost(body.massKg, limit.value)) return []
    return [
      {
        weight: 'stop',
        says: `${packName(facts, body.round)} is too heavy: it will come out wet. Make two packs of it.`,
        measured: `${body.massKg} kg`,
        limit: `${limit.value} kg`,
        source: limit.source,
      },
    ]
  },
})
