import { z } from 'zod'

/** A figure as a unit knows it: what it most likely is, and how low and high it may be. */
export interface Amount {
  readonly low: number
  readonly likely: number
  readonly high: number
}

/** One number, where it is known, or three. */
export function amount(least: number, most: number): z.ZodType<Amount> {
  const figure = z.number().min(least).max(most)
  return z.union([
    figure.transform((likely) => ({ low: likely, likely, high: likely })),
    z
      .strictObject({ low: figure, likely: figure, high: figure })
      .refine(({ low, likely, high }) => low <= likely && likely <= high, {
        path: ['likely'],
        message: 'a number from low to high',
      }),
  ])
}

export const AmountOutput = z.strictObject({ low: z.number(), likely: z.number(), high: z.number() })
