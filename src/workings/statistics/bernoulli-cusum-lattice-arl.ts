import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { rateField } from './fields.ts'
import { latticeAlternative, latticeSteps } from './run-length/bernoulli-lattice.ts'
import { latticeRunLengths } from './run-length/lattice-run-length.ts'
import { reynoldsSource } from './sources.ts'

export const bernoulliCusumLatticeArlWorking = defineWorking({
  id: 'bernoulli-cusum-lattice-arl',
  title: 'Run lengths of the whole-number CUSUM',
  group: 'statistics',
  method:
    'S moves on whole numbers: + (m - 1) for an infection, - 1 for none, not below 0; signal at S >= H. The finite chain is solved exactly. p1 is the rate for which 1/m is the best slope.',
  validity: 'Independent procedures at one rate. A changing mix of patients needs ra-cusum-arl.',
  sources: [reynoldsSource],
  input: z
    .strictObject({
      p0: rateField,
      m: z.int().min(2).max(2000).describe('an infection adds m - 1, none takes 1'),
      H: z.int().min(1).max(5000).describe('limit'),
      rule: z.literal('S=max(0,S+(m-1) if infected else -1); signal when S>=H').optional(),
      headStart: z.int().min(0).max(5000).default(0),
    })
    .refine(({ p0, m }) => p0 * m < 1, { path: ['m'], message: 'a number below 1/p0' })
    .refine(({ H, headStart }) => headStart < H, { path: ['headStart'], message: 'a number below H' }),
  output: z.strictObject({ p1: z.number(), ARL0: z.number(), ARL1: z.number() }),
  example: {
    input: { p0: 0.01, m: 50, H: 150 },
    output: { p1: 0.034977370670064636, ARL0: 5131.900093076212, ARL1: 173.38855909964886 },
  },
  work: ({ p0, m, H, headStart }) => {
    const p1 = latticeAlternative(p0, m)
    const at = (rate: number) => latticeRunLengths(latticeSteps(rate, m), H)[headStart] ?? Number.NaN
    return { p1, ARL0: at(p0), ARL1: at(p1) }
  },
})
