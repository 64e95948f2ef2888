import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { poissonAtMost, poissonProbability } from './special/poisson.ts'

function below(x: number, mean: number): number {
  return x < 0 ? 0 : poissonAtMost(x, mean)
}

function exactly(x: number, mean: number): number {
  return x < 0 ? 0 : poissonProbability(x, mean)
}

/** P(no window of w holds k events) over two and over three lengths of w, with `mean` events expected in one. */
function noneOverTwoAndThree(k: number, mean: number): readonly [number, number] {
  const F = (x: number) => below(x, mean)
  const p = (x: number) => exactly(x, mean)
  const two = F(k - 1) ** 2 - (k - 1) * p(k) * p(k - 2) - (k - 1 - mean) * p(k) * F(k - 3)
  const a1 = 2 * p(k) * F(k - 1) * ((k - 1) * F(k - 2) - mean * F(k - 3))
  const a2 = 0.5 * p(k) ** 2 * ((k - 1) * (k - 2) * F(k - 3) - 2 * (k - 2) * mean * F(k - 4) + mean ** 2 * F(k - 5))
  let a3 = 0
  let a4 = 0
  for (let r = 1; r < k; r += 1) a3 += p(2 * k - r) * F(r - 1) ** 2
  for (let r = 2; r < k; r += 1) a4 += p(2 * k - r) * p(r) * ((r - 1) * F(r - 2) - mean * F(r - 3))
  return [two, F(k - 1) ** 3 - a1 + a2 + a3 - a4]
}

/** P(some window of w holds at least k events) over T, by Q2 (Q3/Q2)^(T/w - 2). */
export function scanPoissonNaus(k: number, mean: number, lengths: number): number {
  const [two, three] = noneOverTwoAndThree(k, mean)
  if (two <= 0 || three <= 0) return 1
  return Math.max(0, Math.min(1, -Math.expm1(Math.log(two) + (lengths - 2) * Math.log(three / two))))
}

export const scanPoissonNausWorking = defineWorking({
  id: 'scan-poisson-naus',
  title: 'Chance of k Poisson events in one window',
  group: 'statistics',
  method:
    '1 - Q2 (Q3/Q2)^(T/w - 2), Q2 and Q3 the exact chances of no such window over two and three lengths of w. The number of events is not fixed.',
  validity: 'T at least 2 w. Against simulation it is right to 2 % and better; exact at T = 2 w and 3 w.',
  sources: [
    { title: 'Naus, J Am Stat Assoc 1982;77:177', clause: 'Q2, Q3 and their product form', status: 'unverified' },
    { title: 'Simulation of 100,000 data sets', clause: '0.0605, 0.1333', status: 'computed' },
  ],
  input: z.strictObject({
    k: z.number().int().min(1).max(1000).describe('events in one window'),
    psi: z.number().positive().max(1000).describe('events expected in one window'),
    T_over_w: z.number().min(2).max(1e6).describe('time watched, in windows'),
  }),
  output: z.strictObject({ value: z.number().describe('P(some window holds at least k)') }),
  example: { input: { k: 4, psi: 0.5, T_over_w: 12 }, output: { value: 0.0612635723272605 } },
  work: ({ k, psi, T_over_w }) => ({ value: scanPoissonNaus(k, psi, T_over_w) }),
})
