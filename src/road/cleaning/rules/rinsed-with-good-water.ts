import { subjectKey } from '../../subject.ts'
import { defineRule } from '../../rule.ts'
import { waterFound } from '../water-found.ts'

/** A wash takes its water from outlets whose last sample was good. */
export const rinsedWithGoodWater = defineRule({
  id: 'rinsed-with-good-water',
  says: 'A wash takes its water from outlets whose last sample kept the limits of their use.',
  on: ['wash-recorded'],
  exceptionAllowed: false,
  check: (facts, { body }) =>
    (body.outlets ?? []).flatMap((id) => {
      const outlet = facts.known(id)
      const last = outlet?.samples.at(-1)
      if (outlet === undefined || outlet.use === null || last === undefined) return []
      return waterFound(last, outlet.use, facts.policy).map((found) => ({
        ...found,
        weight: 'caution' as const,
        says: `The last sample of ${outlet.name || subjectKey(id)} was out of its limits. ${found.says}`,
      }))
    }),
})
