import { defineWorking } from '../working.ts'
import { type Interval, IntervalOutput, proportionInput } from './fields.ts'
import { binomialAtLeast, binomialAtMost, binomialProbability } from './special/binomial.ts'
import { findRoot } from './special/find-root.ts'
import { clopperPearsonLimits } from './prop-ci-clopper-pearson.ts'
import { exactTailSource, newcombeSource } from './sources.ts'

/** Mid-P limits of x/n. */
export function midPLimits(x: number, n: number, conf: number): Interval {
  const half = (1 - conf) / 2
  if (x === 0) return [0, -Math.expm1(Math.log(2 * half) / n)]
  if (x === n) return [Math.exp(Math.log(2 * half) / n), 1]
  const [lowest, highest] = clopperPearsonLimits(x, n, conf)
  const above = (p: number) => binomialAtLeast(x, n, p) - 0.5 * binomialProbability(x, n, p)
  const below = (p: number) => binomialAtMost(x, n, p) - 0.5 * binomialProbability(x, n, p)
  return [findRoot((p) => above(p) - half, lowest, highest), findRoot((p) => below(p) - half, lowest, highest)]
}

export const propCiMidpWorking = defineWorking({
  id: 'prop-ci-midp',
  title: 'Limits of a proportion, mid-P',
  group: 'statistics',
  method: 'The proportions at which the one-sided mid-P value equals alpha/2.',
  validity: 'Coverage is close to nominal, not guaranteed.',
  sources: [newcombeSource, exactTailSource],
  input: proportionInput,
  output: IntervalOutput,
  example: { input: { x: 4, n: 287, conf: 0.95 }, output: { value: [0.004443670381972144, 0.03327173999486257] } },
  work: ({ x, n, conf }) => ({ value: midPLimits(x, n, conf) }),
})
