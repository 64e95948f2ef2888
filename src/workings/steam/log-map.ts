import { z } from 'zod'

const columnName = z.string().min(1).describe('column name as the header line has it')
const TemperatureColumn = z.strictObject({
  column: columnName,
  unit: z.enum(['C', 'F']).describe('degrees Celsius or Fahrenheit'),
})
const PressureColumn = z.strictObject({
  column: columnName,
  unit: z.enum(['kPa', 'bar', 'mbar', 'psi']).describe('unit of the column'),
  gauge: z.boolean().default(false).describe('true when the column reads zero in the open air'),
  atmosphereKPa: z.number().min(50).max(110).optional().describe('local atmosphere, kPa; needed by a gauge reading'),
})

/** Which column of a log is what. Kept by the unit for each logger, or given with the log. */
export const SteamLogMap = z.strictObject({
  time: z.strictObject({
    column: columnName,
    format: z.enum(['seconds', 'clock', 'iso']).describe('elapsed seconds, time of day, or ISO 8601'),
  }),
  pressure: PressureColumn.optional(),
  reference: TemperatureColumn.describe('the sensor at the reference point of the chamber'),
  loads: z.array(TemperatureColumn).optional().describe('sensors inside the load'),
  above: TemperatureColumn.optional().describe('sensor in free space above the test pack'),
})
export type SteamLogMap = z.infer<typeof SteamLogMap>
export type TemperatureUnit = z.infer<typeof TemperatureColumn>['unit']
export type PressureUnit = z.infer<typeof PressureColumn>['unit']

/** Kilopascals in one of each pressure unit; the psi is exact by definition of pound, inch and standard gravity. */
export const kilopascalsIn: Readonly<Record<PressureUnit, number>> = Object.freeze({
  kPa: 1,
  bar: 100,
  mbar: 0.1,
  psi: 6.894757293168361,
})

/** Kelvin in one degree of each scale. */
export const kelvinsIn: Readonly<Record<TemperatureUnit, number>> = Object.freeze({ C: 1, F: 5 / 9 })

export function celsiusOf(reading: number, unit: TemperatureUnit): number {
  return unit === 'C' ? reading : ((reading - 32) * 5) / 9
}

export function kilopascalsOf(
  reading: number,
  column: { unit: PressureUnit; gauge: boolean; atmosphereKPa?: number },
): number {
  return reading * kilopascalsIn[column.unit] + (column.gauge ? (column.atmosphereKPa ?? Number.NaN) : 0)
}
