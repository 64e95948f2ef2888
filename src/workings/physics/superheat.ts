import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { atMost } from './at-most.ts'
import { temperatureField } from './fields.ts'
import { if97, SaturationEquation, type SaturationOptions } from './saturation-line.ts'
import { saturationTemperatureC } from './saturation-temperature.ts'
import { if97Source, steamDifferenceSource, threeConstantSource } from './sources.ts'

/**
 * Measured temperature minus the theoretical temperature of the measured absolute pressure, K.
 *
 * Above zero the steam is superheated or the sensors disagree; below zero there is air, or the sensors disagree.
 * @throws RangeError for a pressure outside the saturation line.
 * @example superheatK(137, 304) // 3.022
 */
export function superheatK(temperatureC: number, pressureKPa: number, options: SaturationOptions = {}): number {
  return temperatureC - saturationTemperatureC(pressureKPa, options)
}

export const superheatWorking = defineWorking({
  id: 'superheat',
  title: 'Superheat: measured minus theoretical temperature',
  group: 'physics',
  method:
    'The measured temperature minus the saturation temperature of the measured absolute pressure. The result is met when the ' +
    'difference is within the limit either way; equality is within.',
  validity:
    'Needs absolute pressure. The IF97 and three-constant theoretical temperatures differ by 0.13 K: the output names the one used. ' +
    '5 % air passes a 2 K limit at 134 degC.',
  sources: [steamDifferenceSource, if97Source, threeConstantSource],
  input: z.strictObject({
    temperatureC: temperatureField.describe('measured temperature, °C'),
    pressureKPa: z.number().min(if97.lowestKPa).max(if97.highestKPa).describe('measured absolute pressure, kPa'),
    equation: SaturationEquation.default('if97').describe('which equation gives the theoretical temperature'),
    limitK: z.number().min(0).max(100).default(2).describe('largest difference either way, K'),
  }),
  output: z.strictObject({
    differenceK: z.number().describe('measured minus theoretical, K'),
    theoreticalC: z.number().describe('saturation temperature of the pressure, °C'),
    equation: SaturationEquation.describe('the equation that was used'),
    limitK: z.number().describe('the limit compared with, K'),
    result: z.enum(['met', 'notMet']).describe('whether the difference is within the limit either way'),
  }),
  example: {
    input: { temperatureC: 137, pressureKPa: 304 },
    output: {
      differenceK: 3.0223617300241585,
      theoreticalC: 133.97763826997584,
      equation: 'if97',
      limitK: 2,
      result: 'notMet',
    },
  },
  work: ({ temperatureC, pressureKPa, equation, limitK }) => {
    const differenceK = superheatK(temperatureC, pressureKPa, { equation })
    return {
      differenceK,
      theoreticalC: saturationTemperatureC(pressureKPa, { equation }),
      equation,
      limitK,
      result: atMost(Math.abs(differenceK), limitK) ? 'met' : 'notMet',
    }
  },
})
