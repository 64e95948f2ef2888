import { defineRule } from '../../rule.ts'
import { hasGrown } from '../load-fold.ts'
import { releasedPacks } from '../released-packs.ts'
import { cdcPositiveIndicator } from '../sources.ts'

/** Nothing is released from a load whose biological indicator grew. */
export const releaseNoGrowth = defineRule({
  id: 'release-no-growth',
  says: 'No pack is released from a load whose biological indicator grew.',
  on: ['load-decided'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const load = facts.known(body.load)
    if (load === undefined || !hasGrown(load)) return []
    if (releasedPacks(facts, body).length === 0) return []
    return [
      {
        weight: 'stop',
        says: 'The biological indicator of this load grew. Quarantine or reject its packs and follow the recall.',
        source: cdcPositiveIndicator,
      },
    ]
  },
})
