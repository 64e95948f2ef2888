import { defineRule } from '../../rule.ts'
import { cdcPositiveIndicator } from '../../sterilising/sources.ts'

/** A recall is closed only when the repeats are read. */
export const closedRepeatsRead = defineRule({
  id: 'closed-repeats-read',
  says: 'A recall is closed only when the repeat tests are read, as long as packs wait for them.',
  on: ['recall-closed'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const extent = facts.extentOf(body.recall)
    if (extent === undefined || extent.verdict !== 'repeatsPending') return []
    if (!extent.packs.some((pack) => pack.duty === 'hold')) return []
    return [
      {
        weight: 'stop',
        says: 'Packs are still held for the repeat tests. Run and read the repeats, or record the defect that was found.',
        measured: `${extent.repeats.good} good`,
        limit: `${extent.repeats.needed} in a row`,
        source: cdcPositiveIndicator,
      },
    ]
  },
})
