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
  exposureSeconds: z.number().positive().describe('least time with every variable in its window, s'),
  longestExposureSeconds: z.number().positive().optional().describe('greatest time of exposure, s'),
})
export type GasProgram = z.infer<typeof GasProgram>

export interface NamedGasProgram {
  readonly key: string
  readonly title: string
  readonly program: GasProgram
  readonly source: Source
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

function dryHeat(temperatureC: number, minutes: number): NamedGasProgram {
  return {
    key: `dry-heat-${temperatureC}`,
    title: `Dry heat, ${temperatureC} °C for ${minutes} min`,
    program: {
      method: 'dryHeat',
      windows: [{ variable: 'temperatureC', from: temperatureC, to: temperatureC + 20 }],
      exposureSeconds: minutes * 60,
    },
    source: heatTable,
  }
}

/**
 * Programmes whose figures are published. Hydrogen peroxide and formaldehyde differ from machine to machine: their
 * windows come with the machine, in a programme given in full.
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
  dryHeat(160, 120),
  dryHeat(170, 60),
  dryHeat(180, 30),
])

export const ownProgramSource: Source = { title: 'Programme of the unit', status: 'proposal' }

export function gasProgramByKey(key: string): NamedGasProgram | undefined {
  return gasPrograms.find((program) => program.key === key)
}
