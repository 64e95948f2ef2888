import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { NumberOutput, confField, rateField } from './fields.ts'
import { zeroSource } from './sources.ts'

/** Procedures in a row without an event after which the rate is excluded. */
export function proceduresToExclude(rate: number, conf: number): number {
  // A whole number that binary arithmetic puts just above itself is that number.
  return Math.ceil(Math.log(1 - conf) / Math.log1p(-rate) - 1e-9)
}

export const nForZeroEventsToExcludeWorking = defineWorking({
  id: 'n-for-zero-events-to-exclude',
  title: 'Procedures without an event that exclude a rate',
  group: 'statistics',
  method: 'Smallest n with (1 - rate)^n <= 1 - conf.',
  validity: 'One-sided.',
  sources: [zeroSource],
  input: z.strictObject({ rate: rateField, conf: confField }),
  output: NumberOutput,
  example: { input: { rate: 0.01, conf: 0.95 }, output: { value: 299 } },
  work: ({ rate, conf }) => ({ value: proceduresToExclude(rate, conf) }),
})
