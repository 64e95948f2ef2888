import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { type Interval, IntervalOutput, confField, countField, expectedField } from './fields.ts'
import { findRoot } from './special/find-root.ts'
import { gammaQuantile, gammaUpperQuantile } from './special/incomplete-gamma.ts'
import { poissonAtLeast, poissonAtMost, poissonProbability } from './special/poisson.ts'
import { exactTailSource, sirSource } from './sources.ts'

/** Mid-P limits of observed/expected. */
export function sirMidPLimits(observed: number, expected: number, conf: number): Interval {
  const half = (1 - conf) / 2
  if (observed === 0) return [0, -Math.log(2 * half) / expected]
  const below = (mean: number) => poissonAtMost(observed, mean) - 0.5 * poissonProbability(observed, mean)
  const above = (mean: number) => poissonAtLeast(observed, mean) - 0.5 * poissonProbability(observed, mean)
  // The exact limits enclose the mid-P limits.
  const lowest = gammaQuantile(half, observed)
  const highest = gammaUpperQuantile(half, observed + 1)
  return [
    findRoot((mean) => above(mean) - half, lowest, highest) / expected,
    findRoot((mean) => below(mean) - half, lowest, highest) / expected,
  ]
}

export const sirCiMidpWorking = defineWorking({
  id: 'sir-ci-midp',
  title: 'Limits of the ratio, mid-P',
  group: 'statistics',
  method:
    'The means m at which P(X < O) + P(X = O)/2 equals 1 - alpha/2 and alpha/2, divided by the expected number. For O = 0 the lower limit is 0 and the upper -ln(alpha)/E.',
  validity: 'Coverage is close to nominal, not guaranteed.',
  sources: [sirSource, exactTailSource],
  input: z.strictObject({ observed: countField, expected: expectedField, conf: confField }),
  output: IntervalOutput,
  example: {
    input: { observed: 4, expected: 3.3, conf: 0.95 },
    output: { value: [0.3851348977005775, 2.9237695969752298] },
  },
  work: ({ observed, expected, conf }) => ({ value: sirMidPLimits(observed, expected, conf) }),
})
