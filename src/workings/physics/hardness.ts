import { z } from 'zod'
import { invariant } from '#units/invariant.ts'
import { defineWorking } from '../working.ts'
import { requireWithin } from './require-within.ts'

const gramsPerGrain = 0.06479891
const litresPerUsGallon = 3.785411784
const litresPerImperialGallon = 4.54609
const caCO3MgPerMmol = 100.0869
const caOMgPerMmol = 56.0774
const mgPerGrain = gramsPerGrain * 1000

/** Every unit as its figure for 1 mmol/L of calcium and magnesium together. */
const perMmol = {
  mmolPerL: 1,
  mgPerLCaCO3: caCO3MgPerMmol,
  germanDegrees: caOMgPerMmol / 10,
  frenchDegrees: caCO3MgPerMmol / 10,
  clarkDegrees: (caCO3MgPerMmol * litresPerImperialGallon) / mgPerGrain,
  grainsPerUsGallon: (caCO3MgPerMmol * litresPerUsGallon) / mgPerGrain,
} as const

export type HardnessUnit = keyof typeof perMmol
export const hardnessUnits: readonly HardnessUnit[] = [
  'mmolPerL',
  'mgPerLCaCO3',
  'germanDegrees',
  'frenchDegrees',
  'clarkDegrees',
  'grainsPerUsGallon',
]

/**
 * Converts a water hardness from one unit to another.
 * @throws RangeError for a negative hardness.
 * @example convertHardness(1, 'mmolPerL', 'germanDegrees') // 5.608
 */
export function convertHardness(value: number, from: HardnessUnit, to: HardnessUnit): number {
  requireWithin(from, value, 0, Number.MAX_VALUE)
  return (value / perMmol[from]) * perMmol[to]
}

const given = (what: string) => z.number().min(0).max(1e6).optional().describe(what)
const found = (what: string) => z.number().describe(what)

const Input = z
  .strictObject({
    mmolPerL: given('calcium and magnesium, mmol/L'),
    mgPerLCaCO3: given('as calcium carbonate, mg/L (ppm)'),
    germanDegrees: given('German degrees, 10 mg/L as CaO'),
    frenchDegrees: given('French degrees, 10 mg/L as CaCO3'),
    clarkDegrees: given('Clark (English) degrees, grains of CaCO3 per imperial gallon'),
    grainsPerUsGallon: given('grains of CaCO3 per US gallon'),
  })
  .refine((input) => givenUnits(input).length === 1, {
    message: `exactly one of ${hardnessUnits.join(', ')}`,
  })

function givenUnits(input: Partial<Record<HardnessUnit, number | undefined>>): readonly [HardnessUnit, number][] {
  return hardnessUnits.flatMap((unit): [HardnessUnit, number][] => {
    const value = input[unit]
    return value === undefined ? [] : [[unit, value]]
  })
}

export const hardnessWorking = defineWorking({
  id: 'hardness',
  title: 'Water hardness in all its units',
  group: 'physics',
  method:
    '1 mmol/L of calcium and magnesium = 100.087 mg/L as CaCO3 = 5.608 German = 10.009 French = 7.022 Clark degrees = ' +
    '5.847 grains per US gallon, from the molar masses of CaCO3 and CaO and the legal grain and gallons.',
  validity: 'Softened water is low in hardness but not in dissolved solids.',
  sources: [{ title: 'Molar masses of CaCO3 and CaO, legal grain and gallons', status: 'computed' }],
  input: Input,
  output: z.strictObject({
    mmolPerL: found('mmol/L'),
    mgPerLCaCO3: found('mg/L as CaCO3'),
    germanDegrees: found('German degrees'),
    frenchDegrees: found('French degrees'),
    clarkDegrees: found('Clark (English) degrees'),
    grainsPerUsGallon: found('grains per US gallon'),
  }),
  example: {
    input: { mmolPerL: 1 },
    output: {
      mmolPerL: 1,
      mgPerLCaCO3: 100.0869,
      germanDegrees: 5.60774,
      frenchDegrees: 10.00869,
      clarkDegrees: 7.021785632212024,
      grainsPerUsGallon: 5.846859625941694,
    },
  },
  work: (input) => {
    const [first] = givenUnits(input)
    invariant(first, 'the schema asks for exactly one unit')
    const [from, value] = first
    return {
      mmolPerL: convertHardness(value, from, 'mmolPerL'),
      mgPerLCaCO3: convertHardness(value, from, 'mgPerLCaCO3'),
      germanDegrees: convertHardness(value, from, 'germanDegrees'),
      frenchDegrees: convertHardness(value, from, 'frenchDegrees'),
      clarkDegrees: convertHardness(value, from, 'clarkDegrees'),
      grainsPerUsGallon: convertHardness(value, from, 'grainsPerUsGallon'),
    }
  },
})
