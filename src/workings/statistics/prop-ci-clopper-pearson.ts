import { defineWorking } from '../working.ts'
import { type Interval, IntervalOutput, proportionInput } from './fields.ts'
import { betaQuantile, betaUpperQuantile } from './special/incomplete-beta.ts'
import { exactTailSource, newcombeSource } from './sources.ts'

/** Exact limits of x/n. */
export function clopperPearsonLimits(x: number, n: number, conf: number): Interval {
  const half = (1 - conf) / 2
  return [x === 0 ? 0 : betaQuantile(half, x, n - x + 1), x === n ? 1 : betaUpperQuantile(half, x + 1, n - x)]
}

export const propCiClopperPearsonWorking = defineWorking({
  id: 'prop-ci-clopper-pearson',
  title: 'Limits of a proportion, exact',
  group: 'statistics',
  method: 'Beta quantiles: alpha/2 of (x, n-x+1), 1 - alpha/2 of (x+1, n-x). 0 and 1 at the ends.',
  validity: 'Never covers less than stated. For x = 0 the upper limit is two-sided, 1 - (alpha/2)^(1/n).',
  sources: [newcombeSource, exactTailSource],
  input: proportionInput,
  output: IntervalOutput,
  example: { input: { x: 4, n: 287, conf: 0.95 }, output: { value: [0.00381015038979654, 0.03529854302168277] } },
  work: ({ x, n, conf }) => ({ value: clopperPearsonLimits(x, n, conf) }),
})
