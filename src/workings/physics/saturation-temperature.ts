import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { requireWithin } from './require-within.ts'
import {
  if97,
  threeConstant,
  type SaturationOptions,
  SaturationEquation,
  airFractionField,
  highestAirFraction,
} from './saturation-line.ts'
import { daltonSource, if97Source, threeConstantSource, threeConstantUseSource } from './sources.ts'

/**
 * Temperature, in °C, at which steam condenses at the absolute pressure `pressureKPa`: the "theoretical temperature".
 *
 * With `airFraction` only the steam's share of the pressure counts (Dalton), so air lowers the result.
 * @throws RangeError when the steam's share is outside 0.6112126 to 22064 kPa, or the air fraction outside 0 to 0.999.
 * @example saturationTemperatureC(304) // 133.9776
 */
export function saturationTemperatureC(pressureKPa: number, options: SaturationOptions = {}): number {
  const { equation = 'if97', airFraction = 0 } = options
  requireWithin('airFraction', airFraction, 0, highestAirFraction)
  const steamKPa = pressureKPa * (1 - airFraction)
  requireWithin('pressureKPa (share of the steam)', steamKPa, if97.lowestKPa, if97.highestKPa)
  return equation === 'if97' ? if97.temperatureC(steamKPa) : threeConstant.temperatureC(steamKPa)
}

const Input = z
  .strictObject({
    pressureKPa: z.number().min(if97.lowestKPa).max(if97.highestKPa).describe('absolute pressure of the mixture, kPa'),
    equation: SaturationEquation.default('if97').describe('which equation gives the saturation line'),
    airFraction: airFractionField,
  })
  .refine(({ pressureKPa, airFraction }) => pressureKPa * (1 - airFraction) >= if97.lowestKPa, {
    path: ['pressureKPa'],
    message: `a pressure whose steam share (1 - airFraction) is >= ${if97.lowestKPa} kPa`,
  })

export const saturationTemperatureWorking = defineWorking({
  id: 'saturation-temperature',
  title: 'Saturation (theoretical) temperature of steam',
  group: 'physics',
  method:
    "IAPWS-IF97 equation 31 gives the saturation temperature from the pressure. With an air fraction the steam's share of the " +
    'pressure, (1 - air fraction) x total, is used. The three-constant equation T = A + B/(ln p + C) (p in MPa, T in K) is an option.',
  validity:
    "The steam's share of the pressure from 0.6112126 to 22064 kPa. The three-constant equation is meant for 100 to 138 degC and " +
    'reads 0.12 to 0.14 K above IF97 there. 5 % air at 134 degC is a depression of 1.75 K, just inside a 2 K window: ' +
    'this is a coarse test for air.',
  sources: [if97Source, threeConstantSource, threeConstantUseSource, daltonSource],
  input: Input,
  output: z.strictObject({
    temperatureC: z.number().describe('saturation temperature, °C'),
    equation: SaturationEquation.describe('the equation that was used'),
  }),
  example: { input: { pressureKPa: 304 }, output: { temperatureC: 133.97763826997584, equation: 'if97' } },
  work: ({ pressureKPa, equation, airFraction }) => ({
    temperatureC: saturationTemperatureC(pressureKPa, { equation, airFraction }),
    equation,
  }),
})
