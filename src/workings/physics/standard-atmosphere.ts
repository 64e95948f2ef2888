import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { requireWithin } from './require-within.ts'
import { standardAtmosphereSource } from './sources.ts'

/** Pressure of the standard atmosphere at sea level, kPa. */
export const seaLevelKPa = 101.325
/** The formula belongs to the lowest layer of the atmosphere. */
export const altitudeRangeM = { low: -500, high: 11_000 } as const

// 6.5 K per km over 288.15 K, and g M / (R x 6.5 K per km).
const lapsePerM = 0.0065 / 288.15
const exponent = 5.25588

/**
 * Pressure of the international standard atmosphere at `altitudeM`, kPa absolute.
 * @throws RangeError outside -500 to 11000 m.
 * @example standardAtmosphereKPa(1500) // 84.56
 */
export function standardAtmosphereKPa(altitudeM: number): number {
  requireWithin('altitudeM', altitudeM, altitudeRangeM.low, altitudeRangeM.high)
  return seaLevelKPa * (1 - lapsePerM * altitudeM) ** exponent
}

export const standardAtmosphereWorking = defineWorking({
  id: 'standard-atmosphere',
  title: 'Standard atmosphere at an altitude',
  group: 'physics',
  method: 'p = 101.325 kPa x (1 - 0.0065 h/288.15)^5.25588, h in metres.',
  validity: 'From -500 to 11000 m. Weather moves the true pressure by some 3 kPa: a barometer reading is better.',
  sources: [standardAtmosphereSource],
  input: z.strictObject({
    altitudeM: z.number().min(altitudeRangeM.low).max(altitudeRangeM.high).describe('height above sea level, m'),
  }),
  output: z.strictObject({ pressureKPa: z.number().describe('absolute pressure, kPa') }),
  example: { input: { altitudeM: 0 }, output: { pressureKPa: 101.325 } },
  work: ({ altitudeM }) => ({ pressureKPa: standardAtmosphereKPa(altitudeM) }),
})
