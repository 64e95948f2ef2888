import type { SaturationEquation } from '../physics/saturation-line.ts'
import { mapByNames } from './auto-map.ts'
import { columnIndex, type RawColumn, readColumn, toChannel } from './channels.ts'
import { type SteamFinding, finding } from './finding.ts'
import { celsiusOf, kelvinsIn, kilopascalsIn, kilopascalsOf, type SteamLogMap } from './log-map.ts'
import { type LogTable, readLogText } from './log-text.ts'
import { readTimes } from './log-time.ts'
import { checkPressureUnit, checkTemperatureUnit } from './plausibility.ts'
import { orderRows } from './row-order.ts'
import { type Channel, saturationOrNaN, type SteamLog } from './steam-log.ts'
import { intervalOf, troubleWithLog } from './trouble.ts'
import { isUnusable, type Unusable, unusable } from './unusable.ts'

/** Reads the text of a log into channels in order of time; the map comes from the unit, or from the header names. */
export function readLog(text: string, map: SteamLogMap | undefined, equation: SaturationEquation): SteamLog | Unusable {
  const table = readLogText(text, map?.time.column)
  if (isUnusable(table)) return table
  const mapped = map === undefined ? mapByNames(table) : { map, findings: [] }
  if (isUnusable(mapped)) return mapped
  const { pressure } = mapped.map
  if (pressure?.gauge === true && pressure.atmosphereKPa === undefined)
    return unusable(
      'map pressure.atmosphereKPa',
      'the local atmosphere in kPa, since the pressure is a gauge reading',
      'missing',
    )
  const log = logOf(table, mapped.map, equation)
  if (isUnusable(log)) return log
  return { ...log, findings: [...mapped.findings, ...log.findings, ...troubleWithLog(log)] }
}

interface Wanted {
  readonly role: Channel['role']
  readonly index: number
  readonly scale: number
  readonly convert: (reading: number) => number
  readonly check: (converted: Float64Array) => Unusable | null
}

function wantedColumns(table: LogTable, map: SteamLogMap): Wanted[] | Unusable {
  const wanted: Wanted[] = []
  const temperatures = [
    { role: 'reference' as const, column: map.reference, what: 'reference' },
    ...(map.loads ?? []).map((column, place) => ({ role: 'load' as const, column, what: `loads[${place}]` })),
    ...(map.above === undefined ? [] : [{ role: 'above' as const, column: map.above, what: 'above' }]),
  ]
  for (const { role, column, what } of temperatures) {
    const index = columnIndex(table, column.column, what)
    if (typeof index !== 'number') return index
    const convert = (reading: number) => celsiusOf(reading, column.unit)
    wanted.push({
      role,
      index,
      scale: kelvinsIn[column.unit],
      convert,
      check: (values) => checkTemperatureUnit(values, column),
    })
  }
  const { pressure } = map
  if (pressure === undefined) return wanted
  const index = columnIndex(table, pressure.column, 'pressure')
  if (typeof index !== 'number') return index
  const { unit, gauge, atmosphereKPa } = pressure
  const column = atmosphereKPa === undefined ? { unit, gauge } : { unit, gauge, atmosphereKPa }
  wanted.push({
    role: 'pressure',
    index,
    scale: kilopascalsIn[unit],
    convert: (reading) => kilopascalsOf(reading, column),
    check: () => null,
  })
  return wanted
}

function logOf(table: LogTable, map: SteamLogMap, equation: SaturationEquation): SteamLog | Unusable {
  const timeColumn = columnIndex(table, map.time.column, 'time')
  if (typeof timeColumn !== 'number') return timeColumn
  const wanted = wantedColumns(table, map)
  if (isUnusable(wanted)) return wanted
  const times = readTimes(table, timeColumn, map.time.format)
  const least = Math.max(...wanted.map(({ index }) => index), timeColumn)
  const readable = (row: readonly string[], index: number) =>
    !Number.isNaN(times.seconds[index] ?? Number.NaN) && row.length > Math.min(least, 1)
  const rows = table.rows.filter(readable)
  const seconds = times.seconds.filter((_, index) => readable(table.rows[index] ?? [], index))
  if (rows.length < 2)
    return unusable(
      `log column "${map.time.column}"`,
      `times in the format "${map.time.format}"`,
      `"${table.rows[0]?.[timeColumn] ?? 'no row'}"`,
    )
  const raws = wanted.map(({ index }) => readColumn(table, rows, index))
  const convertedColumns = raws.map((raw, place) => raw.readings.map(wanted[place]?.convert ?? ((value) => value)))
  const wrong = wrongUnit(wanted, convertedColumns, map)
  if (wrong !== null) return wrong
  if (raws.every(({ readings }) => readings.every(Number.isNaN)))
    return unusable('log', 'numbers in the mapped columns', `"${rows[0]?.join(table.delimiter).slice(0, 60)}"`)
  return assemble({
    wanted,
    raws,
    convertedColumns,
    seconds,
    equation,
    findings: [...unread(table, rows.length), ...times.findings],
  })
}

function wrongUnit(wanted: readonly Wanted[], columns: readonly Float64Array[], map: SteamLogMap): Unusable | null {
  const problems = wanted.map(({ check }, place) => check(columns[place] ?? new Float64Array()))
  const pressureAt = wanted.findIndex(({ role }) => role === 'pressure')
  const [reference] = columns
  const kilopascals = columns[pressureAt]
  if (map.pressure !== undefined && kilopascals !== undefined && reference !== undefined)
    problems.push(checkPressureUnit(kilopascals, reference, map.pressure))
  return problems.find((problem) => problem !== null) ?? null
}

function unread(table: LogTable, read: number): SteamFinding[] {
  const left = table.rows.length - read
  if (left === 0) return []
  return [
    finding(
      'unread-lines',
      'note',
      `${left} ${left === 1 ? 'line' : 'lines'} below the header could not be read as readings with a time.`,
    ),
  ]
}

interface Parts {
  readonly wanted: readonly Wanted[]
  readonly raws: readonly RawColumn[]
  readonly convertedColumns: readonly Float64Array[]
  readonly seconds: Float64Array
  readonly equation: SaturationEquation
  readonly findings: readonly SteamFinding[]
}

function assemble({ wanted, raws, convertedColumns, seconds, equation, findings }: Parts): SteamLog | Unusable {
  const { order, findings: orderFindings } = orderRows(seconds, convertedColumns)
  const built = raws.flatMap((raw, place) => {
    const { role, scale } = wanted[place] ?? { role: 'load' as const, scale: 1 }
    return [toChannel(raw, role, convertedColumns[place] ?? new Float64Array(), scale, order)]
  })
  const channels = built.map(({ channel }) => channel)
  const find = (role: Channel['role']) => channels.find((channel) => channel.role === role) ?? null
  const reference = find('reference')
  if (reference === null) return unusable('map reference', 'a column', 'missing')
  const sorted = Float64Array.from(order, (row) => seconds[row] ?? Number.NaN)
  const pressure = find('pressure')
  return {
    seconds: sorted,
    intervalSeconds: intervalOf(sorted),
    pressure,
    reference,
    loads: channels.filter(({ role }) => role === 'load'),
    above: find('above'),
    saturationC: sorted.map((_, index) => saturationOrNaN(pressure?.values[index] ?? Number.NaN, equation)),
    findings: [...findings, ...orderFindings, ...built.flatMap((one) => one.findings)],
  }
}
