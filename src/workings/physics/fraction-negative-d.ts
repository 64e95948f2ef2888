import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { populationField, positiveMinutesField } from './fields.ts'

/**
 * D-value, in minutes, from units of which some grew and some did not: t/(log10 N0 - log10 ln(n/r)).
 *
 * Null when all units or none are negative, or when the units show more survivors than were put on them:
 * the formula then says nothing.
 * @example fractionNegativeDMinutes(10, 1e6, 20, 8) // 1.6562
 */
export function fractionNegativeDMinutes(
  minutes: number,
  population: number,
  units: number,
  negative: number,
): number | null {
  if (negative <= 0 || negative >= units) return null
  const logs = Math.log10(population) - Math.log10(Math.log(units / negative))
  return logs > 0 ? minutes / logs : null
}

const Input = z
  .strictObject({
    minutes: positiveMinutesField.describe('exposure, min'),
    population: populationField.describe('spores on one unit'),
    units: z.int().min(1).max(1_000_000).describe('units exposed'),
    negative: z.int().min(0).max(1_000_000).describe('units that did not grow'),
  })
  .refine(({ units, negative }) => negative <= units, {
    path: ['negative'],
    message: 'a number not above the units exposed',
  })

export const fractionNegativeDWorking = defineWorking({
  id: 'fraction-negative-d',
  title: 'D-value by the fraction-negative method',
  group: 'physics',
  method:
    'From n units exposed for t minutes, r of them negative, the mean survivors are ln(n/r) and ' +
    'D = t/(log10 N0 - log10 ln(n/r)) (Stumbo-Murphy-Cochran).',
  validity:
    'Needs some units negative and some positive; otherwise the result is null. One exposure only: the interval of the estimate is ' +
    'wide for few units.',
  sources: [
    { title: 'Stumbo-Murphy-Cochran procedure', clause: 'name of the method', status: 'confirmed' },
    { title: 'Stumbo-Murphy-Cochran procedure', clause: 'formula', status: 'unverified' },
  ],
  input: Input,
  output: z.strictObject({
    dMinutes: z.number().nullable().describe('D-value, min; null when the units cannot tell'),
    result: z.enum(['estimated', 'notEvaluable']).describe('whether the units can tell'),
  }),
  example: {
    input: { minutes: 10, population: 1_000_000, units: 20, negative: 8 },
    output: { dMinutes: 1.6561866745116718, result: 'estimated' },
  },
  work: ({ minutes, population, units, negative }) => {
    const dMinutes = fractionNegativeDMinutes(minutes, population, units, negative)
    return { dMinutes, result: dMinutes === null ? 'notEvaluable' : 'estimated' }
  },
})
