import { z } from 'zod'
import { type SteamFinding, finding } from '../steam/finding.ts'
import { type PressureUnit, SteamLogMap } from '../steam/log-map.ts'
import type { LogTable } from '../steam/log-text.ts'
import { timeFormatOf } from '../steam/log-time.ts'
import { type Unusable, unusable } from '../steam/unusable.ts'
import { isNumeric } from '../logs/plain-log.ts'
import type { GasVariable } from './gas-program.ts'

const Column = z.strictObject({ column: z.string().min(1).describe('column name as the header line has it') })

/** Which column of a gas log is what. */
export const GasLogMap = z.strictObject({
  time: SteamLogMap.shape.time,
  temperatures: z.array(z.strictObject({ column: z.string().min(1), unit: z.enum(['C', 'F']) })).default([]),
  humidity: Column.optional().describe('relative humidity, %'),
  concentration: Column.optional().describe('gas, mg/L'),
  pressure: SteamLogMap.shape.pressure,
  stage: Column.optional().describe('words of the machine: stages, alarms, cancelled'),
})
export type GasLogMap = z.infer<typeof GasLogMap>

const names = {
  time: /time|elapsed|timestamp|clock|^t$|seconds?|zeit|hora/i,
  humidity: /humid|^rh\b|feucht|humed/i,
  concentration: /mg\s?\/\s?l|concentr|konzentr/i,
  pressure: /press|druck|presi[oó]n|kpa|m?bar\b|psi/i,
  temperature: /temp|°\s?[cf]|[[(]\s?[cf]\s?[\])]|load|probe|sensor/i,
  stage: /stage|phase|step|status|state|event|alarm/i,
} as const

/** Finds the columns by their names and units; what is not plainly named is left out and so not evaluable. */
export function gasMapByNames(table: LogTable): { map: GasLogMap; findings: SteamFinding[] } | Unusable {
  const columns = table.header.map((name, index) => ({ name, index, text: `${name} ${table.units?.[index] ?? ''}` }))
  const time = columns.find(({ name }) => names.time.test(name) && !/^date$/i.test(name))
  if (time === undefined)
    return unusable('log', 'a time column (name it in a map)', `columns ${table.header.join(', ')}`)
  const rest = columns.filter((column) => column !== time && column.name !== '')
  const stage = rest.find(({ name, index }) => names.stage.test(name) && !isNumeric(table, index))
  const numeric = rest.filter(({ index }) => isNumeric(table, index))
  const find = (pattern: RegExp) => numeric.find(({ text }) => pattern.test(text))
  const humidity = find(names.humidity)
  const concentration = find(names.concentration)
  const pressure = numeric.find((column) => column !== concentration && names.pressure.test(column.text))
  const taken = new Set([humidity, concentration, pressure])
  const temperatures = numeric.filter((column) => !taken.has(column) && names.temperature.test(column.text))
  const unit = pressure === undefined ? null : pressureUnit(pressure.text)
  const map: GasLogMap = {
    time: { column: time.name, format: timeFormatOf(table, time.index) },
    temperatures: temperatures.map(({ name, text }) => ({
      column: name,
      unit: /°?\s?F\b/.test(text) && !/°?\s?C\b/.test(text) ? ('F' as const) : ('C' as const),
    })),
    ...(humidity === undefined ? {} : { humidity: { column: humidity.name } }),
    ...(concentration === undefined ? {} : { concentration: { column: concentration.name } }),
    ...(pressure === undefined || unit === null ? {} : { pressure: { column: pressure.name, unit, gauge: false } }),
    ...(stage === undefined ? {} : { stage: { column: stage.name } }),
  }
  return { map, findings: [finding('mapped-by-names', 'note', says(map))] }
}

function pressureUnit(text: string): PressureUnit | null {
  if (/gauge/i.test(text)) return null
  if (/kpa/i.test(text)) return 'kPa'
  if (/mbar|hpa/i.test(text)) return 'mbar'
  if (/bar/i.test(text)) return 'bar'
  return /psi/i.test(text) ? 'psi' : null
}

function says(map: GasLogMap): string {
  const parts = [
    `time "${map.time.column}"`,
    `temperatures ${map.temperatures.map(({ column, unit }) => `"${column}" (°${unit})`).join(', ') || 'none'}`,
    `humidity ${map.humidity?.column ?? 'none'}`,
    `gas ${map.concentration?.column ?? 'none'}`,
    `pressure ${map.pressure?.column ?? 'none'}`,
    `stages ${map.stage?.column ?? 'none'}`,
  ]
  return `No map was given; the columns were taken by their names: ${parts.join('; ')}. Save a map if this is not right.`
}

/** What can be read at all, by variable. */
export const possibleReadings: Readonly<Record<GasVariable, { low: number; high: number; unit: string }>> = {
  temperatureC: { low: -40, high: 300, unit: '°C' },
  relativeHumidityPercent: { low: -5, high: 110, unit: '%' },
  concentrationMgPerL: { low: -50, high: 5000, unit: 'mg/L' },
  pressureKPa: { low: -3, high: 1000, unit: 'kPa' },
}
