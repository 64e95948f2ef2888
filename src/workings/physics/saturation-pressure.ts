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
 * Absolute pressure, in kPa, at which steam condenses at `temperatureC`.
 *
 * With `airFraction` it is the total pressure of the mixture whose steam is at that point (Dalton).
 * @throws RangeError outside 0 to 373.946 °C, or for an air fraction outside 0 to below 1.
 * @example saturationPressureKPa(134) // 304.199
 */
export function saturationPressureKPa(temperatureC: number, options: SaturationOptions = {}): number {
  const { equation = 'if97', airFraction = 0 } = options
  requireWithin('temperatureC', temperatureC, if97.lowestC, if97.highestC)
  requireWithin('airFraction', airFraction, 0, highestAirFraction)
  const steamKPa = equation === 'if97' ? if97.pressureKPa(temperatureC) : threeConstant.pressureKPa(temperatureC)
  return steamKPa / (1 - airFraction)
}

export const saturationPressureWorking = defineWorking({
  id: 'saturation-pressure',
  title: 'Saturation pressure of steam',
  group: 'physics',
  method:
    'IAPWS-IF97 equation 30 gives the saturation pressure from the temperature. With an air fraction the result is the total ' +
    'pressure, steam pressure / (1 - air fraction). The three-constant equation ln p = B/(T - A) - C (p in MPa, T in K) is an option.',
  validity:
    'From 0 to 373.946 degC. The three-constant equation is meant for 100 to 138 degC and reads 0.12 to 0.14 K above IF97 there: ' +
    'never mix the two in one comparison.',
  sources: [if97Source, threeConstantSource, threeConstantUseSource, daltonSource],
  input: z.strictObject({
    temperatureC: z.number().min(if97.lowestC).max(if97.highestC).describe('temperature of the steam, °C'),
    equation: SaturationEquation.default('if97').describe('which equation gives the saturation line'),
    airFraction: airFractionField,
  }),
  output: z.strictObject({
    pressureKPa: z.number().describe('absolute pressure, kPa'),
    equation: SaturationEquation.describe('the equation that was used'),
  }),
  example: { input: { temperatureC: 134 }, output: { pressureKPa: 304.1988830065267, equation: 'if97' } },
  work: ({ temperatureC, equation, airFraction }) => ({
    pressureKPa: saturationPressureKPa(temperatureC, { equation, airFraction }),
    equation,
  }),
})
