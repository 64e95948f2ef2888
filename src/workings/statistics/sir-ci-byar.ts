import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { type Interval, IntervalOutput, confField, countField, expectedField } from './fields.ts'
import { normalQuantile } from './special/normal.ts'

/** Byar's limits of observed/expected. */
export function sirByarLimits(observed: number, expected: number, conf: number): Interval {
  const z = -normalQuantile((1 - conf) / 2)
  const limit = (count: number, by: number) =>
    (count * (1 - 1 / (9 * count) + by / (3 * Math.sqrt(count))) ** 3) / expected
  return [observed === 0 ? 0 : Math.max(0, limit(observed, -z)), limit(observed + 1, z)]
}

export const sirCiByarWorking = defineWorking({
  id: 'sir-ci-byar',
  title: 'Limits of the ratio, Byar',
  group: 'statistics',
  method: 'O(1 - 1/(9O) - z/(3 sqrt O))^3 / E, and the same with O + 1 and + z above. The lower limit of O = 0 is 0.',
  validity: 'An approximation; close to the exact limits from about 5 infections.',
  sources: [{ title: 'Byar approximation of Poisson limits', status: 'unverified' }],
  input: z.strictObject({ observed: countField, expected: expectedField, conf: confField }),
  output: IntervalOutput,
  example: {
    input: { observed: 4, expected: 3.3, conf: 0.95 },
    output: { value: [0.32610618429142973, 3.103258405792139] },
  },
  work: ({ observed, expected, conf }) => ({ value: sirByarLimits(observed, expected, conf) }),
})
