import type { Source } from '#units/source.ts'
import { defineRule } from '../../rule.ts'

const trend: Source = {
  title: 'A test counts in the trend of the wash that it was made after',
  status: 'proposal',
}

/** A test of cleaning names the wash that it tests, and that wash held the set. */
export const testFitsItsWash = defineRule({
  id: 'test-fits-its-wash',
  says: 'A test of cleaning names the wash that the set was in, so that it counts in the trend of its washer.',
  on: ['cleaning-tested'],
  exceptionAllowed: false,
  check(facts, { body }) {
    if (body.wash === undefined) {
      return [{ weight: 'note', says: 'It names no wash, so it counts in no trend.', source: trend }]
    }
    const wash = facts.known(body.wash)
    if (wash === undefined || wash.rounds.includes(body.round)) return []
    return [{ weight: 'caution', says: 'The set was not in this wash. Name the wash that it was in.', source: trend }]
  },
})
