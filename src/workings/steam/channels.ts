import { cellNumber, isBlankLike } from './cell.ts'
import { type SteamFinding, finding } from './finding.ts'
import { columnsShown, type LogTable, sameName } from './log-text.ts'
import { resolutionOf } from './resolution.ts'
import { at } from './series.ts'
import type { Channel } from './steam-log.ts'
import { type Unusable, unusable } from './unusable.ts'

/** Readings outside these cannot come from a working sensor of a steam sterilizer. */
const possible = { temperature: { low: -40, high: 200 }, pressure: { low: -3, high: 1000 } } as const

/** A column read in its own unit, before it is put in order of time. */
export interface RawColumn {
  readonly name: string
  readonly readings: Float64Array
  readonly findings: readonly SteamFinding[]
}

/** Index of a column by name; unusable when the log has none, or two of that name. */
export function columnIndex(table: LogTable, name: string, what: string): number | Unusable {
  const matching = (matches: (header: string) => boolean) =>
    table.header.flatMap((header, index) => (matches(header) ? [index] : []))
  const exact = matching((header) => header === name.trim())
  const found = exact.length > 0 ? exact : matching((header) => sameName(header, name))
  const [index] = found
  if (index !== undefined && found.length === 1) return index
  return unusable(
    `map ${what}`,
    found.length === 0 ? 'a column of the log' : 'a column name that occurs once',
    `"${name}"; the log has ${columnsShown(table)}`,
  )
}

/** Reads one column; cells with neither a number nor a usual blank are reported with an example. */
export function readColumn(table: LogTable, rows: readonly (readonly string[])[], column: number): RawColumn {
  const name = table.header[column] ?? ''
  let strange = 0
  let example = ''
  let blank = 0
  const readings = Float64Array.from(rows, (row) => {
    const cell = row[column] ?? ''
    const value = cellNumber(cell, table.decimalComma)
    if (Number.isNaN(value) && isBlankLike(cell)) blank += 1
    else if (Number.isNaN(value)) {
      strange += 1
      if (example === '') example = cell.trim().slice(0, 20)
    }
    return value
  })
  const findings: SteamFinding[] = []
  if (strange > 0)
    findings.push(
      finding('unreadable-cells', 'caution', `"${name}": ${strange} cells are not numbers, for example "${example}".`),
    )
  if (blank > 0) findings.push(finding('blank-cells', 'note', `"${name}": ${blank} cells are blank.`))
  return { name, readings, findings }
}

/** Turns a converted column into a channel in order of time; impossible readings count as missing and are reported. */
export function toChannel(
  raw: RawColumn,
  role: Channel['role'],
  converted: Float64Array,
  scale: number,
  order: Uint32Array,
): { channel: Channel; findings: SteamFinding[] } {
  const { low, high } = role === 'pressure' ? possible.pressure : possible.temperature
  let impossible = 0
  let example = 0
  const values = new Float64Array(order.length)
  for (let place = 0; place < order.length; place += 1) {
    const value = at(converted, order[place] ?? 0)
    const outside = value < low || value > high
    if (outside) {
      impossible += 1
      example = value
    }
    values[place] = outside ? Number.NaN : value
  }
  const unit = role === 'pressure' ? 'kPa' : '°C'
  const says = `"${raw.name}": ${impossible} readings outside ${low} to ${high} ${unit} (for example ${Number(example.toFixed(1))}) count as missing.`
  return {
    channel: { name: raw.name, role, values, resolution: resolutionOf(raw.readings) * scale },
    findings: [...raw.findings, ...(impossible > 0 ? [finding('impossible-readings', 'caution', says)] : [])],
  }
}
