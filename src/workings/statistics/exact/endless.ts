import { z } from 'zod'

/** A ratio that the data may leave without bound: JSON has no infinity, so it is written as the word. */
export const EndlessField = z.union([z.number(), z.literal('Infinity')])
export type Endless = z.infer<typeof EndlessField>

export function endless(value: number): Endless {
  return value === Number.POSITIVE_INFINITY ? 'Infinity' : value
}
