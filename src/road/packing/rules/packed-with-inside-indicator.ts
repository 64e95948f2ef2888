import { defineRule } from '../../rule.ts'
import { insideIndicatorTypes, st79Packs } from '../limits.ts'

/** A pack has a chemical indicator inside, of an allowed type. */
export const packedWithInsideIndicator = defineRule({
  id: 'packed-with-inside-indicator',
  says: 'A pack is sealed only with a chemical indicator of an allowed type inside.',
  on: ['pack-sealed'],
  exceptionAllowed: false,
  check(facts, { body }) {
    if (body.insideIndicator === null) {
      return [
        {
          weight: 'stop',
          says: 'There is no chemical indicator inside. Put one in the place that steam reaches last, then seal.',
          source: st79Packs,
        },
      ]
    }
    const limit = facts.policy.limit(insideIndicatorTypes)
    const allowed = limit.value.split(',').map((type) => type.trim())
    if (allowed.includes(body.insideIndicator.type)) return []
    return [
      {
        weight: 'stop',
        says: 'This type of indicator is not one to put inside a pack. Use an allowed type.',
        measured: `type ${body.insideIndicator.type}`,
        limit: `type ${allowed.join(' or ')}`,
        source: limit.source,
      },
    ]
  },
})
