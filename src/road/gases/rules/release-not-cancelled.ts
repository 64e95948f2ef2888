import { defineRule } from '../../rule.ts'
import { releasedPacks } from '../../sterilising/released-packs.ts'
import { peroxideCancelled } from '../sources.ts'

/** No pack of a cancelled cycle is released. */
export const releaseNotCancelled = defineRule({
  id: 'release-not-cancelled',
  says: 'No pack of a cancelled cycle is released.',
  on: ['load-decided'],
  exceptionAllowed: false,
  check(facts, { body }) {
    const cancelled = facts.known(body.load)?.gas?.cancelled ?? null
    if (cancelled === null || releasedPacks(facts, body).length === 0) return []
    return [
      {
        weight: 'stop',
        says: 'The cycle of this load was cancelled. Reject every pack.',
        measured: cancelled.cause,
        source: peroxideCancelled,
      },
    ]
  },
})
