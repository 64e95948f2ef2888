import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { type Interval, IntervalOutput, confField, countField, expectedField } from './fields.ts'
import { gammaQuantile, gammaUpperQuantile } from './special/incomplete-gamma.ts'
import { exactTailSource } from './sources.ts'

/** Exact Poisson limits of observed/expected. */
export function sirExactLimits(observed: number, expected: number, conf: number): Interval {
  const half = (1 - conf) / 2
  return [
    observed === 0 ? 0 : gammaQuantile(half, observed) / expected,
    gammaUpperQuantile(half, observed + 1) / expected,
  ]
}

export const sirCiExactWorking = defineWorking({
  id: 'sir-ci-exact',
  title: 'Limits of the ratio, exact',
  group: 'statistics',
  method:
    'Gamma quantiles: alpha/2 of shape O, 1 - alpha/2 of shape O + 1, divided by the expected number. The lower limit of O = 0 is 0.',
  validity: 'Never covers less than stated; wide for few infections.',
  sources: [exactTailSource],
  input: z.strictObject({ observed: countField, expected: expectedField, conf: confField }),
  output: IntervalOutput,
  example: {
    input: { observed: 4, expected: 3.3, conf: 0.95 },
    output: { value: [0.33026223443221975, 3.103511719819302] },
  },
  work: ({ observed, expected, conf }) => ({ value: sirExactLimits(observed, expected, conf) }),
})
