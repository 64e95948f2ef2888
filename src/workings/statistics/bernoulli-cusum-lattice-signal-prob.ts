import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { NumberOutput, rateField } from './fields.ts'
import { latticeSteps } from './run-length/bernoulli-lattice.ts'
import { latticeSignalProbability } from './run-length/lattice-run-length.ts'
import { reynoldsSource } from './sources.ts'

export const bernoulliCusumLatticeSignalProbWorking = defineWorking({
  id: 'bernoulli-cusum-lattice-signal-prob',
  title: 'Chance of a signal within n procedures',
  group: 'statistics',
  method: 'Exact forward recursion over the states of the whole-number CUSUM.',
  validity: 'Independent procedures at one rate. A changing mix of patients needs ra-cusum-arl.',
  sources: [reynoldsSource],
  input: z.strictObject({
    p: rateField,
    m: z.int().min(2).max(2000).describe('an infection adds m - 1, none takes 1'),
    H: z.int().min(1).max(5000).describe('limit'),
    n: z.int().min(0).max(20_000).describe('procedures'),
    headStart: z.int().min(0).max(5000).default(0),
  }),
  output: NumberOutput,
  example: { input: { p: 0.03, m: 50, H: 150, n: 100 }, output: { value: 0.2322449314672897 } },
  work: ({ p, m, H, n, headStart }) => ({ value: latticeSignalProbability(latticeSteps(p, m), H, n, headStart) }),
})
