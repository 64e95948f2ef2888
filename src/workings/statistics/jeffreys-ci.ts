import { defineWorking } from '../working.ts'
import { type Interval, IntervalOutput, proportionInput } from './fields.ts'
import { betaQuantile, betaUpperQuantile } from './special/incomplete-beta.ts'

/** Jeffreys limits of x/n. */
export function jeffreysLimits(x: number, n: number, conf: number): Interval {
  const half = (1 - conf) / 2
  const [a, b] = [x + 0.5, n - x + 0.5]
  return [x === 0 ? 0 : betaQuantile(half, a, b), x === n ? 1 : betaUpperQuantile(half, a, b)]
}

export const jeffreysCiWorking = defineWorking({
  id: 'jeffreys-ci',
  title: 'Limits of a proportion, Jeffreys',
  group: 'statistics',
  method: 'Quantiles of Beta(x + 1/2, n - x + 1/2); lower 0 when x = 0, upper 1 when x = n.',
  validity: 'A Bayesian interval with a flat-ended prior.',
  sources: [
    { title: 'Brown, Cai, DasGupta 2001', clause: 'Jeffreys interval, modified at the ends', status: 'unverified' },
  ],
  input: proportionInput,
  output: IntervalOutput,
  example: { input: { x: 2, n: 150, conf: 0.95 }, output: { value: [0.0027807855473308205, 0.04208013483133414] } },
  work: ({ x, n, conf }) => ({ value: jeffreysLimits(x, n, conf) }),
})
