import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { rateField } from './fields.ts'
import { latticeSteps } from './run-length/bernoulli-lattice.ts'
import { latticeRunLengths } from './run-length/lattice-run-length.ts'
import { reynoldsSource } from './sources.ts'

/** Smallest H that reaches the target, and its run length. */
export function designLattice(p0: number, m: number, targetARL0: number): { H: number; ARL0: number } {
  const at = (H: number) => latticeRunLengths(latticeSteps(p0, m), H)[0] ?? Number.NaN
  let high = m
  while (at(high) < targetARL0) high *= 2
  let low = 0
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2)
    if (at(middle) >= targetARL0) high = middle
    else low = middle
  }
  return { H: high, ARL0: at(high) }
}

export const bernoulliCusumLatticeDesignWorking = defineWorking({
  id: 'bernoulli-cusum-lattice-design',
  title: 'Limit of the whole-number CUSUM for a target',
  group: 'statistics',
  method: 'Smallest whole H whose exact run length at p0 reaches the target.',
  validity: 'Independent procedures at one rate. A changing mix of patients needs ra-cusum-arl.',
  sources: [reynoldsSource],
  input: z
    .strictObject({
      p0: rateField,
      m: z.int().min(2).max(2000).describe('an infection adds m - 1, none takes 1'),
      targetARL0: z.number().min(2).max(1e7).describe('procedures to a false alarm, at least'),
    })
    .refine(({ p0, m }) => p0 * m < 1, { path: ['m'], message: 'a number below 1/p0' }),
  output: z.strictObject({ H: z.number(), ARL0: z.number() }),
  example: { input: { p0: 0.01, m: 50, targetARL0: 5000 }, output: { H: 149, ARL0: 5007.480346402364 } },
  work: ({ p0, m, targetARL0 }) => designLattice(p0, m, targetARL0),
})
