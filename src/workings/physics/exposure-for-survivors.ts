import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { populationField, positiveMinutesField } from './fields.ts'
import { requireWithin } from './require-within.ts'
import { logLinearSource } from './sources.ts'

/**
 * Exposure, in minutes at the temperature of D, that leaves a mean of `survivors`: D (log10 N0 - log10 N).
 * @throws RangeError unless 0 < survivors <= population and D is positive.
 * @example exposureForSurvivorsMinutes(1e6, 1, 1e-6) // 12
 */
export function exposureForSurvivorsMinutes(population: number, dMinutes: number, survivors: number): number {
  requireWithin('dMinutes', dMinutes, Number.MIN_VALUE, Number.MAX_VALUE)
  requireWithin('survivors', survivors, Number.MIN_VALUE, population)
  return dMinutes * (Math.log10(population) - Math.log10(survivors))
}

const Input = z
  .strictObject({
    population: populationField.describe('number of organisms at the start'),
    dMinutes: positiveMinutesField.describe('D-value, min'),
    survivors: z.number().min(1e-30).describe('mean number of survivors wanted, such as 1e-6'),
  })
  .refine(({ population, survivors }) => survivors <= population, {
    path: ['survivors'],
    message: 'a number not above the population',
  })

export const exposureForSurvivorsWorking = defineWorking({
  id: 'exposure-for-survivors',
  title: 'Exposure for a wanted number of survivors',
  group: 'physics',
  method: 'F = D x (log10 N0 - log10 N). A sterility assurance level of 1e-6 is N = 1e-6.',
  validity: 'Log-linear inactivation only. A mean below one is the chance of a survivor.',
  sources: [logLinearSource, { title: 'EN 556-1; Ph. Eur. 5.1.1', clause: 'SAL of 1e-6', status: 'unverified' }],
  input: Input,
  output: z.strictObject({
    minutes: z.number().describe('exposure, equivalent minutes at the temperature of D'),
    logs: z.number().describe('tenfold reductions'),
  }),
  example: { input: { population: 1_000_000, dMinutes: 1, survivors: 0.000001 }, output: { minutes: 12, logs: 12 } },
  work: ({ population, dMinutes, survivors }) => ({
    minutes: exposureForSurvivorsMinutes(population, dMinutes, survivors),
    logs: exposureForSurvivorsMinutes(population, 1, survivors),
  }),
})
