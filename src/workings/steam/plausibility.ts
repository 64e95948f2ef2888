import type { SteamLogMap } from './log-map.ts'
import { at } from './series.ts'
import { saturationOrNaN } from './steam-log.ts'
import { type Unusable, unusable } from './unusable.ts'

/*
 * A unit that is certainly wrong makes the log unusable: the reader never converts on its own. "Certainly" means that
 * the readings cannot be what the map says and would be right under one other unit.
 */

/** Refuses a Fahrenheit column that is mapped as Celsius. */
export function checkTemperatureUnit(
  values: Float64Array,
  column: { column: string; unit: 'C' | 'F' },
): Unusable | null {
  if (column.unit !== 'C') return null
  const beyond = new Set<number>()
  for (const value of values) if (value > 215 && value < 300) beyond.add(value)
  if (beyond.size < 5) return null
  return unusable(
    `temperature "${column.column}"`,
    'degrees Celsius as the map says (correct the unit to F if it is Fahrenheit)',
    `readings up to ${Math.max(...beyond)}`,
  )
}

/** Refuses a pressure whose unit, or gauge instead of absolute, is certainly wrong beside the temperature. */
export function checkPressureUnit(
  kilopascals: Float64Array,
  temperatures: Float64Array,
  column: NonNullable<SteamLogMap['pressure']>,
): Unusable | null {
  const vacuum = new Set<number>()
  for (const value of kilopascals) if (value < -5 && value > -105) vacuum.add(value)
  const wanted = `${column.unit} ${column.gauge ? 'gauge' : 'absolute'} as the map says`
  if (vacuum.size >= 5)
    return unusable(
      `pressure "${column.column}"`,
      `${wanted} (a gauge reading needs gauge true and atmosphereKPa)`,
      'readings below vacuum',
    )
  if (column.gauge) return null
  const hot = hotReadings(kilopascals, temperatures)
  if (shareAgreeing(hot, 1) > 0.1) return null
  const named = otherUnits.find(({ times }) => shareAgreeing(hot, times) > 0.8)
  const first = hot[0]
  if (first === undefined || named === undefined) return null
  return unusable(
    `pressure "${column.column}"`,
    `${wanted} (correct the unit in the map)`,
    `${first.kPa.toPrecision(4)} kPa where the reference reads ${first.temperatureC.toFixed(1)} °C, ${named.says}`,
  )
}

const otherUnits = [
  { times: 100, says: 'as if bar were read as kPa' },
  { times: 0.01, says: 'as if kPa were read as bar' },
  { times: 0.1, says: 'as if mbar were read as kPa' },
  { times: 10, says: 'as if kPa were read as mbar' },
  { times: 6.894757, says: 'as if psi were read as kPa' },
  { times: 1 / 6.894757, says: 'as if kPa were read as psi' },
  { times: 1000, says: 'as if bar were read as mbar' },
  { times: 0.001, says: 'as if mbar were read as bar' },
] as const

interface HotReading {
  readonly kPa: number
  readonly temperatureC: number
}

/** Pressure and temperature wherever the reference is within 5 K of its hottest, which an attempt at a plateau is. */
function hotReadings(kilopascals: Float64Array, temperatures: Float64Array): HotReading[] {
  let hottest = Number.NEGATIVE_INFINITY
  for (const value of temperatures) if (value > hottest && value < 160) hottest = value
  const readings: HotReading[] = []
  if (hottest < 110) return readings
  for (let index = 0; index < temperatures.length; index += 1) {
    const temperatureC = at(temperatures, index)
    const kPa = at(kilopascals, index)
    if (temperatureC > hottest - 5 && temperatureC < 160 && kPa > 0) readings.push({ kPa, temperatureC })
  }
  return readings
}

/** Share of the readings that fit saturated steam when the pressure is taken `times` as large. */
function shareAgreeing(readings: readonly HotReading[], times: number): number {
  if (readings.length < 10) return 0
  const fitting = readings.filter(
    ({ kPa, temperatureC }) => Math.abs(saturationOrNaN(kPa * times, 'if97') - temperatureC) <= 8,
  )
  return fitting.length / readings.length
}
