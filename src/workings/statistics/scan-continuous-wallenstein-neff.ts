import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { binomialAtLeast, binomialProbability } from './special/binomial.ts'

/** P(some window of share w holds at least k of N events); exact for k > N/2 and w <= 1/2. */
export function wallensteinNeff(k: number, events: number, w: number): number {
  if (k <= 1) return 1
  const value = (k / w - events - 1) * binomialProbability(k, events, w) + 2 * binomialAtLeast(k, events, w)
  return Math.max(0, Math.min(1, value))
}

export const scanContinuousWallensteinNeffWorking = defineWorking({
  id: 'scan-continuous-wallenstein-neff',
  title: 'Chance of k events in one window',
  group: 'statistics',
  method:
    '(k/w - N - 1) b(k; N, w) + 2 P(X >= k), X binomial: some window of the share w of the time watched holds at least k of the N events. Kept within 0 and 1.',
  validity:
    'Exact for k above N/2 and w up to ½; otherwise an approximation that is good where the answer is below about 0.1.',
  sources: [
    { title: 'Wallenstein and Neff, Stat Med 1987;6:197', clause: 'formula', status: 'unverified' },
    { title: 'Simulation of 200,000 data sets', clause: 'k = 5 of 8, w = 1/12: 0.0091', status: 'computed' },
  ],
  input: z
    .strictObject({
      k: z.number().int().min(1).max(100_000).describe('events in one window'),
      N: z.number().int().min(1).max(100_000).describe('events in all'),
      w: z.number().positive().max(1).describe('window, as a share of the time watched'),
    })
    .superRefine(({ k, N }, context) => {
      if (k > N) context.addIssue({ code: 'custom', path: ['k'], message: `at most N, ${N}`, input: k })
    }),
  output: z.strictObject({
    value: z.number().describe('P(some window holds at least k)'),
    exact: z.boolean().describe('whether the formula is exact here'),
  }),
  example: { input: { k: 5, N: 8, w: 0.0833333333333333 }, output: { value: 0.0092035592138322, exact: true } },
  work: ({ k, N, w }) => ({ value: wallensteinNeff(k, N, w), exact: k === 1 || (2 * k > N && w <= 0.5) }),
})
