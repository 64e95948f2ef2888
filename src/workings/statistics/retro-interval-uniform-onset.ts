import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { noteField } from './exact/cell-fields.ts'

export const retroIntervalWorking = defineWorking({
  id: 'retro-interval-uniform-onset',
  title: 'Loads between the last good and the first failed indicator',
  group: 'statistics',
  method:
    'Load k showed growth and the indicator before load 1 did not. The failure began before load U, U equally likely 1 to k, and persists: load j is ' +
    'non-sterile with probability j/k; (k + 1)/2 loads are expected to be.',
  validity:
    'A failure that persists once it has begun. One that comes and goes leaves every load in doubt: the recall covers them all either way.',
  sources: [{ title: 'Uniform onset', clause: 'closed form', status: 'computed' }],
  input: z.strictObject({
    loadsSinceLastNegativeBI: z.number().int().min(1).max(10_000).describe('loads up to and with the one that failed'),
    note: noteField,
  }),
  output: z.strictObject({
    pNonSterile: z.array(z.number()).describe('probability that load 1, 2 … is non-sterile'),
    expectedNonSterileLoads: z.number().describe('loads expected to be non-sterile'),
  }),
  example: {
    input: { loadsSinceLastNegativeBI: 4 },
    output: { pNonSterile: [0.25, 0.5, 0.75, 1], expectedNonSterileLoads: 2.5 },
  },
  work: ({ loadsSinceLastNegativeBI: k }) => ({
    pNonSterile: Array.from({ length: k }, (_, index) => (index + 1) / k),
    expectedNonSterileLoads: (k + 1) / 2,
  }),
})
