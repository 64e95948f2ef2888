import { z } from 'zod'
import type { Source } from '#units/source.ts'

export const gasMethods = ['ethyleneOxide', 'hydrogenPeroxide', 'formaldehyde', 'dryHeat'] as const
export const gasVariables = ['temperatureC', 'relativeHumidityPercent', 'concentrationMgPerL', 'pressureKPa'] as const
export type GasVariable = (typeof gasVariables)[number]

/** What one programme asks of a cycle: windows in which every variable stays for the exposure. */
export const GasProgram = z.strictObject({
  method: z.enum(gasMethods),
  windows: z
    .array(
      z.strictObject({
        variable: z.enum(gasVariables),
        from: z.number().optional().describe('lowest, in the unit of the variable'),
        to: z.number().optional().describe('highest, in the unit of the variable'),
      }),
    )
    .min(1)
    .describe('each variable that must be recorded'),
  exposureSeconds: z
    .number()
    .positive()
    .optional()
    .describe('least time with every variable in its window, s; without it the exposure is not evaluable'),
  longestExposureSeconds: z.number().positive().optional().describe('greatest time of exposure, s'),
})
export type GasProgram = z.infer<typeof GasProgram>

export interface NamedGasProgram {
  readonly key: string
  readonly title: string
  readonly program: GasProgram
  readonly source: Source
  /** Where the window of one variable comes from, when it is from elsewhere than the exposure. */
  readonly windowSources?: Readonly<Partial<Record<GasVariable, Source>>>
}

const gasText: Source = {
  title: 'CDC Guideline for Disinfection and Sterilization in Healthcare Facilities',
  edition: '2008, text copy',
  clause: 'ethylene oxide: 450 to 1200 mg/L, 37 to 63 °C, 40 to 80 % humidity, 1 to 6 h',
  status: 'secondary',
}
const heatTable: Source = {
  title: 'ISO 20857 and WHO, as cited',
  clause: '160 °C 120 min, 170 °C 60 min, 180 °C 30 min; plateau times',
  status: 'secondary',
}

const heatRecalled: Source = {
  title: 'Dry heat below 160 °C',
  clause: '150 °C 180 min, 140 °C 180 min',
  status: 'unverified',
}
export const peroxideChamber: Source = {
  title: 'Hydrogen peroxide gas in sterilisers, from memory',
  clause: '37 to 55 °C, about 2 to 10 mg/L in the chamber',
  status: 'unverified',
}
export const plasmaHeat: Source = {
  title: 'CDC Guideline for Disinfection and Sterilization in Healthcare Facilities',
  edition: '2008',
  clause: 'Table 6, gas plasma: below 50 °C; the lower end from memory',
  status: 'unverified',
}
const formaldehydeHeat: Source = { title: 'EN 14180 and ISO 25424', clause: '55 to 80 °C', status: 'secondary' }
const makersTime: Source = {
  title: 'Maker of the steriliser',
  clause: 'time of exposure: not published in general, to be entered by the unit',
  status: 'unverified',
}

function dryHeat(temperatureC: number, minutes: number, source = heatTable): NamedGasProgram {
  return {
    key: `dry-heat-${temperatureC}`,
    title: `Dry heat, ${temperatureC} °C for ${minutes} min`,
    program: {
      method: 'dryHeat',
      windows: [{ variable: 'temperatureC', from: temperatureC, to: temperatureC + 20 }],
      exposureSeconds: minutes * 60,
    },
    source,
  }
}

function peroxide(kind: 'vapour' | 'plasma', hottestC: number, heat: Source): NamedGasProgram {
  return {
    key: `peroxide-${kind}`,
    title: `Hydrogen peroxide ${kind}, time of the maker`,
    program: {
      method: 'hydrogenPeroxide',
      windows: [
        { variable: 'concentrationMgPerL', from: 2, to: 10 },
        { variable: 'temperatureC', from: 37, to: hottestC },
      ],
    },
    source: makersTime,
    windowSources: { concentrationMgPerL: peroxideChamber, temperatureC: heat },
  }
}

/**
 * One programme at least for each method. The time of hydrogen peroxide and of formaldehyde is the maker's: until it is
 * entered the exposure is not evaluable, and what is outside its window is told all the same.
 */
export const gasPrograms: readonly NamedGasProgram[] = Object.freeze([
  {
    key: 'ethylene-oxide',
    title: 'Ethylene oxide, 1 to 6 h',
    program: {
      method: 'ethyleneOxide',
      windows: [
        { variable: 'concentrationMgPerL', from: 450, to: 1200 },
        { variable: 'temperatureC', from: 37, to: 63 },
        { variable: 'relativeHumidityPercent', from: 40, to: 80 },
      ],
      exposureSeconds: 3600,
      longestExposureSeconds: 21_600,
    },
    source: gasText,
  },
  peroxide('vapour', 55, peroxideChamber),
  peroxide('plasma', 50, plasmaHeat),
  {
    key: 'formaldehyde-steam',
    title: 'Steam with formaldehyde, time of the maker',
    program: { method: 'formaldehyde', windows: [{ variable: 'temperatureC', from: 55, to: 80 }] },
    source: makersTime,
    windowSources: { temperatureC: formaldehydeHeat },
  },
  dryHeat(140, 180, heatRecalled),
  dryHeat(150, 180, heatRecalled),
  dryHeat(160, 120),
  dryHeat(170, 60),
  dryHeat(180, 30),
])

export const ownProgramSource: Source = { title: 'Programme of the unit', status: 'proposal' }

export function gasProgramByKey(key: string): NamedGasProgram | undefined {
  return gasPrograms.find((program) => program.key === key)
}
