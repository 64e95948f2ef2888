import { type SteamFinding, finding } from './finding.ts'
import type { SteamLogMap } from './log-map.ts'
import { columnsShown, type LogTable } from './log-text.ts'
import { timeFormatOf } from './log-time.ts'
import { type Unusable, unusable } from './unusable.ts'

/*
 * A map made from the header names, for a log that comes without one. It takes only what the names and units say;
 * a pressure without a unit is not guessed from its size.
 */

const names = {
  time: /^(time|t|elapsed|timestamp|date.?time|datetime|clock|seconds?|secs?|zeit|hora|heure|tempo|tiempo)\b|time|elapsed/i,
  pressure: /press|druck|presi[oó]n|^p\b|^p_|kpa|bar\b|psi/i,
  reference: /\bref|reference|drain|control|chamber.*temp|temp.*chamber|chamber_?t|^t_?ref|kammer|camara|c[aá]mara/i,
  above: /above|top|free.?space/i,
  load: /load|pack|probe|sensor|lumen|^t\d+|last|carga/i,
} as const

interface Column {
  readonly name: string
  readonly unit: string
}

/** Finds time, pressure, reference, load and free-space columns by their names. */
export function mapByNames(table: LogTable): { map: SteamLogMap; findings: SteamFinding[] } | Unusable {
  const columns = table.header.map((name, index) => ({
    name,
    unit: `${table.units?.[index] ?? ''} ${unitIn(name)}`.trim(),
  }))
  const time = columns.find(({ name }) => names.time.test(name) && !/^date$/i.test(name))
  if (time === undefined) return missing('a time column', table)
  if (/\bmin|\bh(ours?)?\b/i.test(time.unit) && !/:/.test(time.unit))
    return unusable(`log column "${time.name}"`, 'elapsed seconds, clock time or ISO time', `unit "${time.unit}"`)
  const rest = columns.filter((column) => column !== time && column.name !== '')
  const pressure = rest.find(({ name, unit }) => names.pressure.test(name) || pressureUnit(unit) !== null)
  const temperatures = rest.filter(
    (column) => column !== pressure && !/^(date|alarm|phase|step|event|status)/i.test(column.name),
  )
  const above = temperatures.find(({ name }) => names.above.test(name) && !names.reference.test(name))
  const reference =
    temperatures.find(({ name }) => names.reference.test(name)) ??
    temperatures.find(({ name }) => /temp/i.test(name) && !names.load.test(name) && !names.above.test(name))
  if (reference === undefined) return missing('a reference temperature column', table)
  const loads = temperatures.filter(
    (column) => column !== reference && column !== above && names.load.test(column.name),
  )
  const mappedPressure = pressure === undefined ? null : pressureColumn(pressure)
  if (mappedPressure !== null && 'kind' in mappedPressure) return mappedPressure
  const map: SteamLogMap = {
    time: { column: time.name, format: timeFormatOf(table, table.header.indexOf(time.name)) },
    reference: temperatureColumn(reference),
    loads: loads.map(temperatureColumn),
    ...(above === undefined ? {} : { above: temperatureColumn(above) }),
    ...(mappedPressure === null ? {} : { pressure: mappedPressure }),
  }
  return { map, findings: [finding('mapped-by-names', 'note', saysMap(map))] }
}

function saysMap(map: SteamLogMap): string {
  const temperature = (column: { column: string; unit: string }) => `"${column.column}" (°${column.unit})`
  const parts = [
    `time "${map.time.column}" (${map.time.format})`,
    map.pressure === undefined ? 'no pressure' : `pressure "${map.pressure.column}" (${map.pressure.unit}, absolute)`,
    `reference ${temperature(map.reference)}`,
    `loads ${map.loads?.map(temperature).join(', ') || 'none'}`,
    `above the pack ${map.above === undefined ? 'none' : temperature(map.above)}`,
  ]
  return `No map was given; the columns were taken by their names: ${parts.join('; ')}. Save a map if this is not right.`
}

function unitIn(name: string): string {
  return (
    /[[(]([^\])]*)[\])]/.exec(name)?.[1] ??
    /[_\s](°?[CF]|deg[CF]|kPa|m?bar|psi[ag]?|barg|s|min)$/i.exec(name)?.[1] ??
    ''
  )
}

function temperatureColumn({ name, unit }: Column): { column: string; unit: 'C' | 'F' } {
  return { column: name, unit: /f\b/i.test(unit) && !/c\b/i.test(unit) ? 'F' : 'C' }
}

function pressureUnit(unit: string): 'kPa' | 'bar' | 'mbar' | 'psi' | null {
  if (/kpa/i.test(unit)) return 'kPa'
  if (/mbar|hpa/i.test(unit)) return 'mbar'
  if (/bar/i.test(unit)) return 'bar'
  return /psi/i.test(unit) ? 'psi' : null
}

function pressureColumn({ name, unit }: Column): NonNullable<SteamLogMap['pressure']> | Unusable {
  const found = pressureUnit(unit) ?? pressureUnit(name)
  if (found === null)
    return unusable(
      `log column "${name}"`,
      'a pressure with its unit (kPa, bar, mbar or psi; name it in a map)',
      'no unit',
    )
  if (/gauge|(?:bar|psi|kpa)[ _]?\(?g\b|\brel|[uü]berdruck/i.test(`${unit} ${name}`))
    return unusable(
      `log column "${name}"`,
      'absolute pressure, or a map with gauge true and atmosphereKPa',
      'a gauge reading',
    )
  return { column: name, unit: found, gauge: false }
}

function missing(what: string, table: LogTable): Unusable {
  return unusable('log', `${what} (name it in a map)`, `columns ${columnsShown(table)}`)
}
