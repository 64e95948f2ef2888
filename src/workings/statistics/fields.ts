import { z } from 'zod'

/* Fields that several workings share. The ranges are those of the job with room to spare; they keep every answer finite. */

export const confField = z
  .number()
  .min(0.5)
  .max(0.999999)
  .default(0.95)
  .describe('confidence, two-sided, 0.95 for 95 %')
export const countField = z.int().min(0).max(10_000_000)
export const expectedField = z.number().min(1e-9).max(1e8)
/** A probability that is neither impossible nor certain. */
export const rateField = z.number().min(1e-7).max(0.999999)
export const alphaField = z.number().min(1e-12).max(0.5).default(0.05)

/** Of a rate to detect that is equal to the accepted one, or hardly another. */
export const furtherApart = {
  path: ['p1'],
  message: 'a rate further from p0: the states between zero and the limit would be too many to list',
}

/** Answer of a working that has one number or one interval only. */
export const NumberOutput = z.strictObject({ value: z.number() })
export const IntervalOutput = z.strictObject({
  value: z.tuple([z.number(), z.number()]).describe('lower and upper limit'),
})
export const PathOutput = z.strictObject({ value: z.array(z.number()).describe('the statistic after each procedure') })

/** `x` events of `n`. */
export const proportionInput = z
  .strictObject({
    x: countField.describe('events'),
    n: countField.min(1).describe('procedures'),
    conf: confField,
  })
  .refine(({ x, n }) => x <= n, { path: ['x'], message: 'a number not above n' })

export type Interval = [number, number]
