import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { requireWithin } from './require-within.ts'

/** No universal figure exists; the maker's instructions decide where they give one. */
const proposedLumenVolumes = 3
const secondsPerMinute = 60

/**
 * Seconds to push `lumenVolumes` times the volume of a lumen through it.
 * @throws RangeError for a negative volume, a flow that is not positive, or less than one lumen volume.
 * @example flushSeconds(6.48, 60) // 19.44
 */
export function flushSeconds(volumeMl: number, flowMlPerMinute: number, lumenVolumes = proposedLumenVolumes): number {
  requireWithin('volumeMl', volumeMl, 0, Number.MAX_VALUE)
  requireWithin('flowMlPerMinute', flowMlPerMinute, Number.MIN_VALUE, Number.MAX_VALUE)
  requireWithin('lumenVolumes', lumenVolumes, 1, Number.MAX_VALUE)
  return ((volumeMl * lumenVolumes) / flowMlPerMinute) * secondsPerMinute
}

export const flushTimeWorking = defineWorking({
  id: 'flush-time',
  title: 'Flushing time of a lumen',
  group: 'physics',
  method: 'Flushed volume = lumen volume x number of lumen volumes; time = flushed volume / flow.',
  validity:
    "The default of three lumen volumes is a proposal: no universal figure was found, and the maker's instructions decide. " +
    'Flow is what comes out at the far end, not what the pump is set to.',
  sources: [
    { title: 'Volume over flow', status: 'computed' },
    { title: 'Three lumen volumes as a default', status: 'proposal' },
  ],
  input: z.strictObject({
    volumeMl: z.number().min(0.0001).max(1e6).describe('volume of the lumen, mL'),
    flowMlPerMinute: z.number().min(0.001).max(1e6).describe('flow at the far end, mL/min'),
    lumenVolumes: z
      .number()
      .min(1)
      .max(1000)
      .default(proposedLumenVolumes)
      .describe("lumen volumes to flush; 3 is a proposal, the maker's instructions decide"),
  }),
  output: z.strictObject({
    seconds: z.number().describe('flushing time, s'),
    flushMl: z.number().describe('volume that goes through, mL'),
    lumenVolumes: z.number().describe('lumen volumes flushed'),
    basis: z.enum(['proposal', 'given']).describe('proposal when the number of lumen volumes is the proposed default'),
  }),
  example: {
    input: { volumeMl: 6.48, flowMlPerMinute: 60 },
    output: { seconds: 19.44, flushMl: 19.44, lumenVolumes: 3, basis: 'proposal' },
  },
  work: ({ volumeMl, flowMlPerMinute, lumenVolumes }) => ({
    seconds: flushSeconds(volumeMl, flowMlPerMinute, lumenVolumes),
    flushMl: volumeMl * lumenVolumes,
    lumenVolumes,
    basis: lumenVolumes === proposedLumenVolumes ? 'proposal' : 'given',
  }),
})
