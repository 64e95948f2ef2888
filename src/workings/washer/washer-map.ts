import { z } from 'zod'
import { isNumeric } from '../logs/plain-log.ts'
import { type SteamFinding, finding } from '../steam/finding.ts'
import { SteamLogMap } from '../steam/log-map.ts'
import type { LogTable } from '../steam/log-text.ts'
import { timeFormatOf } from '../steam/log-time.ts'
import { type Unusable, unusable } from '../steam/unusable.ts'

/** Which column of a washer's log is what. */
export const WasherLogMap = z.strictObject({
  time: SteamLogMap.shape.time,
  temperatures: z
    .array(z.strictObject({ column: z.string().min(1), unit: z.enum(['C', 'F']) }))
    .min(1)
    .describe('every sensor that counts: the coldest decides'),
  conductivity: z
    .strictObject({ column: z.string().min(1), unit: z.enum(['uS/cm', 'mS/m', 'mS/cm']) })
    .optional()
    .describe('conductivity of the water in the chamber'),
  stage: z
    .strictObject({ column: z.string().min(1) })
    .optional()
    .describe('the washer’s own names of its stages'),
})
export type WasherLogMap = z.infer<typeof WasherLogMap>

/** Microsiemens per centimetre in one of each unit. */
export const microsiemensIn: Readonly<Record<NonNullable<WasherLogMap['conductivity']>['unit'], number>> = {
  'uS/cm': 1,
  'mS/m': 10,
  'mS/cm': 1000,
}

/** Finds time, temperatures, conductivity and stages by the names and units of the columns. */
export function washerMapByNames(table: LogTable): { map: WasherLogMap; findings: SteamFinding[] } | Unusable {
  const columns = table.header.map((name, index) => ({ name, index, text: `${name} ${table.units?.[index] ?? ''}` }))
  const time = columns.find(
    ({ name }) => /time|elapsed|second|clock|zeit|hora|^t$/i.test(name) && !/^date$/i.test(name),
  )
  if (time === undefined)
    return unusable('log', 'a time column (name it in a map)', `columns ${table.header.join(', ')}`)
  const rest = columns.filter((column) => column !== time && column.name !== '')
  const stage = rest.find(({ name, index }) => /stage|phase|step/i.test(name) && !isNumeric(table, index))
  const numeric = rest.filter(({ index }) => isNumeric(table, index))
  const conductivity = numeric.find(({ text }) => /conduct|µs|us\/cm|ms\/c?m|leitf/i.test(text))
  const temperatures = numeric.filter((column) => column !== conductivity && isTemperature(column.text))
  if (temperatures.length === 0)
    return unusable('log', 'a temperature column (name it in a map)', `columns ${table.header.join(', ')}`)
  const map: WasherLogMap = {
    time: { column: time.name, format: timeFormatOf(table, time.index) },
    temperatures: temperatures.map(({ name, text }) => ({ column: name, unit: isFahrenheit(text) ? 'F' : 'C' })),
    ...(conductivity === undefined
      ? {}
      : { conductivity: { column: conductivity.name, unit: conductivityUnit(conductivity.text) } }),
    ...(stage === undefined ? {} : { stage: { column: stage.name } }),
  }
  const sensors = map.temperatures.map(({ column, unit }) => `"${column}" (°${unit})`).join(', ')
  const says = `No map was given; the columns were taken by their names: time "${map.time.column}"; temperatures ${sensors}; conductivity ${conductivity?.name ?? 'none'}; stages ${stage?.name ?? 'none'}. Save a map if this is not right.`
  return { map, findings: [finding('mapped-by-names', 'note', says)] }
}

function isTemperature(text: string): boolean {
  return /temp|°\s?[cf]|deg\s?[cf]|[[(]\s?[cf]\s?[\])]|[_\s][cf]\s*$/i.test(text)
}

function isFahrenheit(text: string): boolean {
  return /(?:°|deg|[[(_\s])\s?F\b/i.test(text) && !/(?:°|deg|[[(_\s])\s?C\b/i.test(text)
}

function conductivityUnit(text: string): keyof typeof microsiemensIn {
  if (/ms\/cm/i.test(text)) return 'mS/cm'
  return /ms\/m/i.test(text) ? 'mS/m' : 'uS/cm'
}
