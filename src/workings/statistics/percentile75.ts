import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { NumberOutput } from './fields.ts'

/** Interpolated quantile of at least one value, position (n-1)p. */
export function percentile(values: readonly number[], p: number): number {
  const sorted = values.toSorted((a, b) => a - b)
  const at = (sorted.length - 1) * p
  const low = sorted[Math.floor(at)] ?? Number.NaN
  const high = sorted[Math.ceil(at)] ?? low
  return low + (at - Math.floor(at)) * (high - low)
}

export const percentile75Working = defineWorking({
  id: 'percentile75',
  title: '75th percentile',
  group: 'statistics',
  method: 'The sorted values, interpolated in a straight line at position (n - 1) x 0.75 (type 7).',
  validity: 'Another convention gives another value in small samples.',
  sources: [{ title: 'Hyndman and Fan 1996, sample quantiles', clause: 'type 7', status: 'unverified' }],
  input: z.strictObject({
    values: z.array(z.number()).min(1).max(100_000),
    type: z.enum(['R type 7', 'R type 7 (linear interpolation, (n-1)p)']).default('R type 7'),
  }),
  output: NumberOutput,
  example: { input: { values: [31, 44, 52, 52, 60, 61, 75, 80, 99, 140, 33] }, output: { value: 77.5 } },
  work: ({ values }) => ({ value: percentile(values, 0.75) }),
})
