import type { SaturationEquation } from '../physics/saturation-line.ts'
import { saturationTemperatureC } from '../physics/saturation-temperature.ts'
import type { SteamFinding } from './finding.ts'

/** One column of the log in °C or kPa absolute, in order of time; NaN where there is no reading. */
export interface Channel {
  readonly name: string
  readonly role: 'pressure' | 'reference' | 'load' | 'above'
  readonly values: Float64Array
  /** Step in which the logger wrote it, in the unit of `values`; 0 when none shows. */
  readonly resolution: number
}

/** A log whose columns are known: what every judgement starts from. */
export interface SteamLog {
  readonly seconds: Float64Array
  readonly intervalSeconds: number
  readonly pressure: Channel | null
  readonly reference: Channel
  readonly loads: readonly Channel[]
  readonly above: Channel | null
  /** Saturation temperature of the logged pressure, °C. */
  readonly saturationC: Float64Array
  readonly findings: readonly SteamFinding[]
}

/** Reference and loads: the temperatures that the holding time is made of. */
export function judgedTemperatures(log: SteamLog): Channel[] {
  return [log.reference, ...log.loads]
}

export function channelsOf(log: SteamLog): Channel[] {
  return [log.pressure, log.reference, ...log.loads, log.above].filter((channel) => channel !== null)
}

/** Saturation temperature, or NaN where the pressure is missing or outside the steam line that matters here. */
export function saturationOrNaN(pressureKPa: number, equation: SaturationEquation): number {
  return pressureKPa >= 1 && pressureKPa <= 2000 ? saturationTemperatureC(pressureKPa, { equation }) : Number.NaN
}
