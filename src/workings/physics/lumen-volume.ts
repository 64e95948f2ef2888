import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { requireWithin } from './require-within.ts'

const cubicMmPerMl = 1000

/**
 * Volume of a straight round lumen, mL: pi/4 d^2 l.
 * @throws RangeError for a diameter or length that is not positive.
 * @example lumenVolumeMl(5, 330) // 6.48
 */
export function lumenVolumeMl(diameterMm: number, lengthMm: number): number {
  requireWithin('diameterMm', diameterMm, Number.MIN_VALUE, Number.MAX_VALUE)
  requireWithin('lengthMm', lengthMm, Number.MIN_VALUE, Number.MAX_VALUE)
  return (Math.PI * diameterMm ** 2 * lengthMm) / 4 / cubicMmPerMl
}

export const lumenVolumeWorking = defineWorking({
  id: 'lumen-volume',
  title: 'Volume of a lumen',
  group: 'physics',
  method: 'V = pi/4 x diameter^2 x length.',
  validity: 'A straight, empty, round lumen. A rod or wire inside makes it smaller.',
  sources: [{ title: 'Volume of a cylinder', status: 'computed' }],
  input: z.strictObject({
    diameterMm: z.number().min(0.01).max(1000).describe('inner diameter, mm'),
    lengthMm: z.number().min(0.01).max(100_000).describe('length, mm'),
    count: z.int().min(1).max(1000).default(1).describe('how many such lumens'),
  }),
  output: z.strictObject({ ml: z.number().describe('volume of all of them, mL') }),
  example: { input: { diameterMm: 5, lengthMm: 330 }, output: { ml: 6.4795348480289485 } },
  work: ({ diameterMm, lengthMm, count }) => ({ ml: count * lumenVolumeMl(diameterMm, lengthMm) }),
})
