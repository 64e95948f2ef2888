import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { positiveMinutesField, temperatureField, zField } from './fields.ts'
import { lethalRatePerMinute } from './lethal-rate.ts'
import { logLinearSource } from './sources.ts'

/**
 * Minutes for a tenfold reduction at `wantedC`, from the D-value at `atC`: D x 10^((T - Twanted)/z).
 * @throws RangeError for a temperature or z out of range.
 * @example dValueMinutes(4.5, 150, 10, 160) // 0.45
 */
export function dValueMinutes(dMinutes: number, atC: number, zK: number, wantedC: number): number {
  return dMinutes * lethalRatePerMinute(atC, wantedC, zK)
}

export const dValueWorking = defineWorking({
  id: 'd-value',
  title: 'D-value at another temperature',
  group: 'physics',
  method: 'D(T) = Dref x 10^((Tref - T)/z).',
  validity: 'z holds over a limited range only; D and z of real spores both move with temperature.',
  sources: [
    logLinearSource,
    {
      title: 'van Doornmalen and Kopinga, J Appl Microbiol 2009',
      clause: 'doi 10.1111/j.1365-2672.2009.04290.x',
      status: 'confirmed',
    },
  ],
  input: z.strictObject({
    dMinutes: positiveMinutesField.describe('D-value at atC, min'),
    atC: temperatureField.describe('temperature that D-value belongs to, °C'),
    zK: zField.describe('temperature rise that makes D ten times as short, K'),
    wantedC: temperatureField.describe('temperature the D-value is wanted for, °C'),
  }),
  output: z.strictObject({ dMinutes: z.number().describe('D-value at wantedC, min') }),
  example: { input: { dMinutes: 4.5, atC: 150, zK: 10, wantedC: 160 }, output: { dMinutes: 0.45 } },
  work: ({ dMinutes, atC, zK, wantedC }) => ({ dMinutes: dValueMinutes(dMinutes, atC, zK, wantedC) }),
})
