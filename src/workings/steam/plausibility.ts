import type { SteamLogMap } from './log-map.ts'
import { at, medianOf } from './series.ts'
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
  const typical = pressureWhereHot(kilopascals, temperatures)
  const named =
    typical === null ? undefined : otherUnits.find(({ times }) => agrees(typical.kPa * times, typical.temperatureC))
  if (typical === null || named === undefined || agrees(typical.kPa, typical.temperatureC)) return null
  return unusable(
    `pressure "${column.column}"`,
    `${wanted} (correct the unit in the map)`,
    `${typical.kPa.toPrecision(4)} kPa where the reference reads ${typical.temperatureC.toFixed(1)} °C, ${named.says}`,
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

function agrees(kPa: number, temperatureC: number): boolean {
  return Math.abs(saturationOrNaN(kPa, 'if97') - temperatureC) <= 8
}

/** Middle pressure and temperature over the hottest stretch; null when nothing gets hot. */
function pressureWhereHot(
  kilopascals: Float64Array,
  temperatures: Float64Array,
): { kPa: number; temperatureC: number } | null {
  let hottest = Number.NEGATIVE_INFINITY
  for (const value of temperatures) if (value > hottest && value < 160) hottest = value
  if (hottest < 110) return null
  const pressures: number[] = []
  for (let index = 0; index < temperatures.length; index += 1) {
    const value = at(temperatures, index)
    if (value > hottest - 3 && value < 160) pressures.push(at(kilopascals, index))
  }
  const kPa = medianOf(pressures)
  return Number.isNaN(kPa) || kPa <= 0 ? null : { kPa, temperatureC: hottest - 1 }
}
