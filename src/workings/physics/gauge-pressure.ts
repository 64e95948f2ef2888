import { z } from 'zod'
import { defineWorking } from '../working.ts'
import { saturationPressureKPa } from './saturation-pressure.ts'
import { if97, SaturationEquation } from './saturation-line.ts'
import { if97Source, standardAtmosphereSource } from './sources.ts'
import { altitudeRangeM, seaLevelKPa, standardAtmosphereKPa } from './standard-atmosphere.ts'

/**
 * What a gauge reads, in kPa above the atmosphere around it, when saturated steam stands at `temperatureC`.
 * @throws RangeError outside 0 to 373.946 °C.
 * @example gaugePressureKPa(121, 84.56) // 120.48
 */
export function gaugePressureKPa(temperatureC: number, atmosphereKPa: number, equation?: SaturationEquation): number {
  return saturationPressureKPa(temperatureC, { equation: equation ?? 'if97' }) - atmosphereKPa
}

const kPaPerBar = 100
// 1 psi in kPa, from 1 lb = 0.45359237 kg, 1 in = 25.4 mm and standard gravity.
const kPaPerPsi = 6.894757293168361

const Input = z
  .strictObject({
    temperatureC: z.number().min(if97.lowestC).max(if97.highestC).describe('temperature of the saturated steam, °C'),
    equation: SaturationEquation.default('if97').describe('which equation gives the saturation line'),
    atmosphereKPa: z
      .number()
      .min(20)
      .max(115)
      .optional()
      .describe('pressure of the air around the gauge, kPa absolute'),
    altitudeM: z
      .number()
      .min(altitudeRangeM.low)
      .max(altitudeRangeM.high)
      .optional()
      .describe('height above sea level, m, when the barometer is not known'),
  })
  .refine(({ atmosphereKPa, altitudeM }) => atmosphereKPa === undefined || altitudeM === undefined, {
    path: ['altitudeM'],
    message: 'no altitude when atmosphereKPa is given',
  })

type Atmosphere = {
  readonly atmosphereKPa: number
  readonly atmosphereFrom: 'given' | 'altitude' | 'sea level assumed'
}

function atmosphereOf({ atmosphereKPa, altitudeM }: z.infer<typeof Input>): Atmosphere {
  if (atmosphereKPa !== undefined) return { atmosphereKPa, atmosphereFrom: 'given' }
  if (altitudeM !== undefined) return { atmosphereKPa: standardAtmosphereKPa(altitudeM), atmosphereFrom: 'altitude' }
  return { atmosphereKPa: seaLevelKPa, atmosphereFrom: 'sea level assumed' }
}

export const gaugePressureWorking = defineWorking({
  id: 'gauge-pressure',
  title: 'Gauge reading of saturated steam',
  group: 'physics',
  method:
    'Saturation pressure minus the local atmosphere. The atmosphere is the one given, else that of the standard atmosphere at the ' +
    'altitude, else sea level; the output says which.',
  validity:
    'A gauge follows the weather and the altitude: at 1500 m, 121 degC reads 120.5 kPa, not 103.7. Negative below the boiling ' +
    'point of the place. Records keep absolute pressure only.',
  sources: [if97Source, standardAtmosphereSource],
  input: Input,
  output: z.strictObject({
    gaugeKPa: z.number().describe('reading above the atmosphere, kPa'),
    gaugeBar: z.number().describe('the same, bar'),
    gaugePsi: z.number().describe('the same, psi'),
    absoluteKPa: z.number().describe('absolute pressure, kPa'),
    atmosphereKPa: z.number().describe('the atmosphere that was taken away, kPa'),
    atmosphereFrom: z.enum(['given', 'altitude', 'sea level assumed']).describe('where that atmosphere came from'),
  }),
  example: {
    input: { temperatureC: 121, atmosphereKPa: 84.56 },
    output: {
      gaugeKPa: 120.4788568075524,
      gaugeBar: 1.2047885680755241,
      gaugePsi: 17.47398083568922,
      absoluteKPa: 205.0388568075524,
      atmosphereKPa: 84.56,
      atmosphereFrom: 'given',
    },
  },
  work: (input) => {
    const atmosphere = atmosphereOf(input)
    const gaugeKPa = gaugePressureKPa(input.temperatureC, atmosphere.atmosphereKPa, input.equation)
    const absoluteKPa = saturationPressureKPa(input.temperatureC, { equation: input.equation })
    return { gaugeKPa, gaugeBar: gaugeKPa / kPaPerBar, gaugePsi: gaugeKPa / kPaPerPsi, absoluteKPa, ...atmosphere }
  },
})
