import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { temperatureField, temperatureRangeC, zField, zRangeK } from './fields.ts'
import { requireWithin } from './require-within.ts'
import { f0Source } from './sources.ts'

/**
 * Minutes at the reference temperature that one minute at `temperatureC` is worth: 10^((T - Tref)/z).
 * @throws RangeError for a temperature outside -273.15 to 400 °C or a z outside 2 to 100 K.
 * @example lethalRatePerMinute(111.1, 121.1, 10) // 0.1
 */
export function lethalRatePerMinute(temperatureC: number, referenceC: number, zK: number): number {
  requireWithin('temperatureC', temperatureC, temperatureRangeC.low, temperatureRangeC.high)
  requireWithin('referenceC', referenceC, temperatureRangeC.low, temperatureRangeC.high)
  requireWithin('zK', zK, zRangeK.low, zRangeK.high)
  return 10 ** ((temperatureC - referenceC) / zK)
}

export const lethalRateWorking = defineWorking({
  id: 'lethal-rate',
  title: 'Lethal rate',
  group: 'physics',
  method: 'L = 10^((T - Tref)/z): the minutes at the reference temperature that one minute at T is worth.',
  validity:
    'The z of an organism is not one number: at 120 to 140 degC the effective z of Geobacillus stearothermophilus is 7 to 8 K, so ' +
    'z = 10 K understates the kill there; below 120 degC the model underestimates the time needed.',
  sources: [
    f0Source,
    {
      title: 'Pflug, PDA J Pharm Sci Technol 1996;50(1):51-54',
      clause: 'effective z at 120 to 140 degC',
      status: 'confirmed',
    },
  ],
  input: z.strictObject({
    temperatureC: temperatureField.describe('temperature, °C'),
    referenceC: temperatureField.describe('reference temperature, °C (121.0, 121.1 or 121.11 are all in use)'),
    zK: zField.describe('temperature rise that makes the kill ten times as fast, K'),
  }),
  output: z.strictObject({ perMinute: z.number().describe('equivalent minutes per minute') }),
  example: { input: { temperatureC: 131.1, referenceC: 121.1, zK: 10 }, output: { perMinute: 10 } },
  work: ({ temperatureC, referenceC, zK }) => ({ perMinute: lethalRatePerMinute(temperatureC, referenceC, zK) }),
})
