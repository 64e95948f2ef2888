import { z } from 'zod'

/** The two equations of the saturation line that the trade uses; they differ by about 0.13 K. */
export const SaturationEquation = z.enum(['if97', 'threeConstant'])
export type SaturationEquation = z.infer<typeof SaturationEquation>

export interface SaturationOptions {
  readonly equation?: SaturationEquation
  /** Mole (volume) fraction of air in the steam, 0 to below 1. */
  readonly airFraction?: number
}

/** Beyond this there is no steam left to speak of. */
export const highestAirFraction = 0.999

export const airFractionField = z
  .number()
  .min(0)
  .max(highestAirFraction)
  .default(0)
  .describe('mole (volume) fraction of air in the steam, 0 to 0.999')

const zeroCelsiusK = 273.15
const kPaPerMPa = 1000

// IAPWS R7-97(2012), Table 34.
const n1 = 0.11670521452767e4
const n2 = -0.72421316703206e6
const n3 = -0.17073846940092e2
const n4 = 0.1202082470247e5
const n5 = -0.32325550322333e7
const n6 = 0.1491510861353e2
const n7 = -0.48232657361591e4
const n8 = 0.40511340542057e6
const n9 = -0.23855557567849
const n10 = 0.65017534844798e3

/** IAPWS-IF97 region 4. Callers keep to its range; outside it the roots have no meaning. */
export const if97 = {
  lowestC: 0,
  /** The critical point, 647.096 K. */
  highestC: 373.946,
  /** Just below the 0.611213 kPa of the release, so that 0 °C survives a round trip. */
  lowestKPa: 0.6112126,
  /** Just above the critical 22064 kPa, for the same reason. */
  highestKPa: 22_064.000001,
  pressureKPa(temperatureC: number): number {
    const kelvin = temperatureC + zeroCelsiusK
    const theta = kelvin + n9 / (kelvin - n10)
    const a = theta ** 2 + n1 * theta + n2
    const b = n3 * theta ** 2 + n4 * theta + n5
    const c = n6 * theta ** 2 + n7 * theta + n8
    return kPaPerMPa * ((2 * c) / (-b + Math.sqrt(b ** 2 - 4 * a * c))) ** 4
  },
  temperatureC(pressureKPa: number): number {
    const beta = (pressureKPa / kPaPerMPa) ** 0.25
    const e = beta ** 2 + n3 * beta + n6
    const f = n1 * beta ** 2 + n4 * beta + n7
    const g = n2 * beta ** 2 + n5 * beta + n8
    const d = (2 * g) / (-f - Math.sqrt(f ** 2 - 4 * e * g))
    return (n10 + d - Math.sqrt((n10 + d) ** 2 - 4 * (n9 + n10 * d))) / 2 - zeroCelsiusK
  },
} as const

const constantA = 42.6776
const constantB = -3892.7
const constantC = -9.48654

/** T = A + B / (ln p + C), T in K and p in MPa. */
export const threeConstant = {
  pressureKPa(temperatureC: number): number {
    return kPaPerMPa * Math.exp(constantB / (temperatureC + zeroCelsiusK - constantA) - constantC)
  },
  temperatureC(pressureKPa: number): number {
    return constantA + constantB / (Math.log(pressureKPa / kPaPerMPa) + constantC) - zeroCelsiusK
  },
} as const
