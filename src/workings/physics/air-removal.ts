import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { requireWithin } from './require-within.ts'
import { dilutionSource } from './sources.ts'

const pressureField = z.number().min(0.001).max(1000)

const Pulse = z
  .strictObject({
    lowKPa: pressureField.describe('absolute pressure at the bottom of the evacuation, kPa'),
    highKPa: pressureField.describe('absolute pressure after the steam injection, kPa'),
  })
  .refine(({ lowKPa, highKPa }) => lowKPa <= highKPa, {
    path: ['lowKPa'],
    message: 'a pressure not above highKPa of the same pulse',
  })
export type Pulse = z.infer<typeof Pulse>

/**
 * Mole fraction of air after each pulse of a well-mixed chamber, starting from pure air (1) by default.
 *
 * x' = x low/high + c (1 - low/high), c being the gas fraction of the steam itself.
 * @throws RangeError unless 0 < low <= high.
 * @example airFractions([{ lowKPa: 5, highKPa: 100 }]) // [0.05]
 */
export function airFractions(pulses: readonly Pulse[], gasFraction = 0, startFraction = 1): number[] {
  let air = startFraction
  return pulses.map(({ lowKPa, highKPa }) => {
    requireWithin('lowKPa', lowKPa, Number.MIN_VALUE, highKPa)
    const kept = lowKPa / highKPa
    air = air * kept + gasFraction * (1 - kept)
    return air
  })
}

const fractionField = z.number().min(0).max(1)

export const airRemovalWorking = defineWorking({
  id: 'air-removal',
  title: 'Air left after evacuation pulses',
  group: 'physics',
  method:
    'Well-mixed dilution: each pulse leaves x low/high of the air fraction x, plus c (1 - low/high) when the steam itself carries a ' +
    'gas fraction c. The air pressure after the last evacuation is the fraction before it times its low pressure.',
  validity:
    'Ignores the air held in lumens and packs: use it to compare cycles and to notice a missing pulse, never as proof of air removal. ' +
    'The 3.5 % limit for non-condensable gas is per volume of condensate, about 26 ppm of the steam, and is no gas fraction.',
  sources: [dilutionSource],
  input: z.strictObject({
    pulses: z.array(Pulse).min(1).max(1000).describe('the pulses in order'),
    gasFraction: fractionField.default(0).describe('mole fraction of gas in the injected steam'),
    startFraction: fractionField.default(1).describe('mole fraction of air before the first pulse'),
  }),
  output: z.strictObject({
    airFraction: z.number().describe('mole fraction of air after the last injection'),
    airPressureKPa: z.number().describe('partial pressure of the air at the bottom of the last evacuation, kPa'),
    fractions: z.array(z.number()).describe('mole fraction of air after each pulse'),
  }),
  example: {
    input: { pulses: [{ lowKPa: 5, highKPa: 100 }] },
    output: { airFraction: 0.05, airPressureKPa: 5, fractions: [0.05] },
  },
  work: ({ pulses, gasFraction, startFraction }) => {
    const fractions = airFractions(pulses, gasFraction, startFraction)
    const beforeLast = fractions.at(-2) ?? startFraction
    return {
      airFraction: fractions.at(-1) ?? startFraction,
      airPressureKPa: beforeLast * (pulses.at(-1)?.lowKPa ?? 0),
      fractions,
    }
  },
})
