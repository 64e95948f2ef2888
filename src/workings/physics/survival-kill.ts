import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { positiveMinutesField } from './fields.ts'
import { requireWithin } from './require-within.ts'

/** With fewer than a hundred spores there is no time at which all units are sure to survive. */
const smallestPopulation = 100

/**
 * Survival and kill time of a biological indicator: (log10 N0 - 2) D and (log10 N0 + 4) D, in minutes.
 *
 * It is log10(N0) - 2, not log10(N0 - 2): a garbled form that is in print and gives nearly log10 N0 for both.
 * @throws RangeError for a population below 100 or a D that is not positive.
 * @example survivalKillMinutes(1e6, 1.5) // { survivalMinutes: 6, killMinutes: 15 }
 */
export function survivalKillMinutes(
  population: number,
  dMinutes: number,
): { survivalMinutes: number; killMinutes: number } {
  requireWithin('population', population, smallestPopulation, Number.MAX_VALUE)
  requireWithin('dMinutes', dMinutes, Number.MIN_VALUE, Number.MAX_VALUE)
  const logs = Math.log10(population)
  return { survivalMinutes: (logs - 2) * dMinutes, killMinutes: (logs + 4) * dMinutes }
}

export const survivalKillWorking = defineWorking({
  id: 'survival-kill',
  title: 'Survival and kill time of a biological indicator',
  group: 'physics',
  method:
    'Survival time = (log10 N0 - 2) D: up to it every unit must grow. Kill time = (log10 N0 + 4) D: from it on none may. ' +
    'The means left are 100 and 0.0001 spores for each unit.',
  validity: 'D and the exposure at the same temperature. Populations of 100 and more.',
  sources: [{ title: 'ISO 11138-1', clause: 'as quoted by two pages', status: 'secondary' }],
  input: z.strictObject({
    population: z.number().min(smallestPopulation).max(1e15).describe('spores on one unit'),
    dMinutes: positiveMinutesField.describe('D-value, min'),
  }),
  output: z.strictObject({
    survivalMinutes: z.number().describe('up to this exposure all units grow, min'),
    killMinutes: z.number().describe('from this exposure on no unit grows, min'),
  }),
  example: { input: { population: 1_000_000, dMinutes: 1.5 }, output: { survivalMinutes: 6, killMinutes: 15 } },
  work: ({ population, dMinutes }) => survivalKillMinutes(population, dMinutes),
})
