import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { latticeRunLengths } from './run-length/lattice-run-length.ts'
import { poissonProbability } from './special/poisson.ts'
import { cycleSource } from './sources.ts'

/** Cells per unit that are tried, fewest first. */
const perUnit = Array.from({ length: 24 }, (_, index) => index + 1)
const onLattice = (value: number, cells: number) => Math.abs(value * cells - Math.round(value * cells)) < 1e-9
const positive = z.number().min(0.01).max(100)

/** Periods to a signal at that mean count per period; `above` signals only beyond h. */
export function poissonCusumRunLength(mean: number, k: number, h: number, above: boolean): number {
  const cells = perUnit.find((each) => onLattice(k, each) && onLattice(h, each)) ?? Number.NaN
  const threshold = Math.round(h * cells) + Number(above)
  const least = -Math.round(k * cells)
  const probabilities = Array.from({ length: threshold - least + cells }, (_, index) =>
    index % cells === 0 ? poissonProbability(index / cells, mean) : 0,
  )
  return latticeRunLengths({ least, probabilities }, threshold)[0] ?? Number.NaN
}

export const poissonCusumArlWorking = defineWorking({
  id: 'poisson-cusum-arl',
  title: 'Run lengths of the Poisson CUSUM',
  group: 'statistics',
  method: 'S = max(0, S + x - k) on the lattice of k and h, solved exactly. Signal at S >= h.',
  validity:
    'k and h must be whole multiples of the same 1/n, n up to 24. ARL_mu1 and ARL_mu2 are at a mean of 1 and of 2, ARL0 at mu0, ARL1 at twice mu0.',
  sources: [cycleSource],
  input: z
    .strictObject({
      mu0: z.number().min(0.001).max(100),
      k: positive,
      h: positive,
      rule: z
        .enum(['S=max(0,S+x-k); signal when S>=h', 'S=max(0,S+x-k); signal when S>h'])
        .default('S=max(0,S+x-k); signal when S>=h'),
    })
    .refine(({ k, h }) => perUnit.some((each) => onLattice(k, each) && onLattice(h, each)), {
      path: ['k'],
      message: 'a multiple of the same 1/n as h, n up to 24',
    }),
  output: z.strictObject({ ARL_mu1: z.number(), ARL_mu2: z.number(), ARL0: z.number(), ARL1: z.number() }),
  example: {
    input: { mu0: 1, k: 1.5, h: 5 },
    output: {
      ARL_mu1: 273.64997235518706,
      ARL_mu2: 9.438292871556031,
      ARL0: 273.64997235518706,
      ARL1: 9.438292871556031,
    },
  },
  work: ({ mu0, k, h, rule }) => {
    const at = (mean: number) => poissonCusumRunLength(mean, k, h, rule.endsWith('S>h'))
    return { ARL_mu1: at(1), ARL_mu2: at(2), ARL0: at(mu0), ARL1: at(2 * mu0) }
  },
})
