import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { minutesField, populationField, positiveMinutesField } from './fields.ts'
import { requireWithin } from './require-within.ts'
import { logLinearSource } from './sources.ts'

/**
 * Tenfold reductions that an exposure gives: F/D, both at the same reference temperature.
 * @throws RangeError for a negative exposure or a D that is not positive.
 * @example logReduction(15, 1.5) // 10
 */
export function logReduction(fMinutes: number, dMinutes: number): number {
  requireWithin('fMinutes', fMinutes, 0, Number.MAX_VALUE)
  requireWithin('dMinutes', dMinutes, Number.MIN_VALUE, Number.MAX_VALUE)
  return fMinutes / dMinutes
}

/** Mean number of survivors, and the chance of at least one: 1 - e^-N. */
export function survivorsAfter(population: number, logs: number): { survivors: number; atLeastOne: number } {
  const survivors = population * 10 ** -logs
  return { survivors, atLeastOne: -Math.expm1(-survivors) }
}

export const logReductionWorking = defineWorking({
  id: 'log-reduction',
  title: 'Log reduction of an exposure',
  group: 'physics',
  method:
    'Logs = F/D, F and D at the same reference temperature. With a starting population N0 also the mean number of survivors, ' +
    'N = N0 x 10^-logs, and the chance of at least one, 1 - e^-N.',
  validity: 'Log-linear inactivation only: no shoulder, no tail.',
  sources: [logLinearSource],
  input: z.strictObject({
    fMinutes: minutesField.describe('exposure, equivalent minutes at the reference temperature of D'),
    dMinutes: positiveMinutesField.describe('D-value, min'),
    population: populationField.optional().describe('number of organisms at the start'),
  }),
  output: z.strictObject({
    logs: z.number().describe('tenfold reductions'),
    survivors: z.number().nullable().describe('mean number of survivors; null without a population'),
    probabilityOfSurvivor: z.number().nullable().describe('chance of at least one survivor; null without a population'),
  }),
  example: {
    input: { fMinutes: 15, dMinutes: 1.5 },
    output: { logs: 10, survivors: null, probabilityOfSurvivor: null },
  },
  work: ({ fMinutes, dMinutes, population }) => {
    const logs = logReduction(fMinutes, dMinutes)
    if (population === undefined) return { logs, survivors: null, probabilityOfSurvivor: null }
    const { survivors, atLeastOne } = survivorsAfter(population, logs)
    return { logs, survivors, probabilityOfSurvivor: atLeastOne }
  },
})
