import { defineRule } from '../../rule.ts'
import { peroxideCancelled } from '../sources.ts'

/** A cancelled cycle sterilised nothing. */
export const cancelledNotSterile = defineRule({
  id: 'cancelled-not-sterile',
  says: 'A cancelled cycle makes its load unsterile: the instruments are dried and packed again with new indicators.',
  on: ['cycle-cancelled'],
  exceptionAllowed: false,
  check: (_facts, { body }) => [
    {
      weight: 'stop',
      says: `This cycle was cancelled. Nothing in the load is sterile: reject every pack, ${
        body.cause === 'moisture' ? 'dry the instruments well, ' : ''
      }pack again with new wraps and indicators, and run a new load.`,
      measured: body.cause,
      source: peroxideCancelled,
    },
  ],
})
