import { cellNumber, isBlankLike } from '../steam/cell.ts'
import { columnIndex, readColumn } from '../steam/channels.ts'
import { type SteamFinding, finding } from '../steam/finding.ts'
import type { SteamLogMap } from '../steam/log-map.ts'
import type { LogTable } from '../steam/log-text.ts'
import { readTimes } from '../steam/log-time.ts'
import { resolutionOf } from '../steam/resolution.ts'
import { orderRows } from '../steam/row-order.ts'
import { at } from '../steam/series.ts'
import { intervalOf } from '../steam/trouble.ts'
import { type Unusable, unusable } from '../steam/unusable.ts'

/** A column that is wanted, and what its readings can be at all. */
export interface WantedColumn<Role extends string> {
  readonly role: Role
  readonly column: string
  readonly scale: number
  readonly convert: (reading: number) => number
  readonly possible: { readonly low: number; readonly high: number; readonly unit: string }
}

export interface PlainChannel<Role extends string> {
  readonly name: string
  readonly role: Role
  readonly values: Float64Array
  /** Step in which the logger wrote it, in the unit of `values`; 0 when none shows. */
  readonly resolution: number
}

/** A log as channels in order of time; NaN where there is no reading. `words` is the column of stages, where there is one. */
export interface PlainLog<Role extends string> {
  readonly seconds: Float64Array
  readonly intervalSeconds: number
  readonly channels: readonly PlainChannel<Role>[]
  readonly words: readonly string[] | null
  readonly findings: readonly SteamFinding[]
}

interface Asked<Role extends string> {
  readonly time: SteamLogMap['time']
  readonly columns: readonly WantedColumn<Role>[]
  readonly words: string | null
}

/** Reads the wanted columns of a table; nothing is repaired without a finding. */
export function readPlainLog<Role extends string>(
  table: LogTable,
  { time, columns, words }: Asked<Role>,
): PlainLog<Role> | Unusable {
  const timeAt = columnIndex(table, time.column, 'time')
  if (typeof timeAt !== 'number') return timeAt
  const places: number[] = []
  for (const { column, role } of columns) {
    const index = columnIndex(table, column, role)
    if (typeof index !== 'number') return index
    places.push(index)
  }
  const wordsAt = words === null ? null : columnIndex(table, words, 'stage')
  if (wordsAt !== null && typeof wordsAt !== 'number') return wordsAt
  const times = readTimes(table, timeAt, time.format)
  const kept = table.rows.flatMap((row, index) => {
    const second = at(times.seconds, index)
    return Number.isNaN(second) ? [] : [{ row, second }]
  })
  if (kept.length < 2)
    return unusable(
      `log column "${time.column}"`,
      `times in the format "${time.format}"`,
      `"${table.rows[0]?.[timeAt] ?? 'no row'}"`,
    )
  const rows = kept.map(({ row }) => row)
  const seconds = Float64Array.from(kept, ({ second }) => second)
  const raws = places.map((place) => readColumn(table, rows, place))
  const converted = raws.map((raw, place) => raw.readings.map(columns[place]?.convert ?? ((value) => value)))
  const { order, findings } = orderRows(seconds, converted)
  const built = columns.map((column, place) =>
    channelOf(column, raws[place]?.readings ?? new Float64Array(), converted[place] ?? new Float64Array(), order),
  )
  const sorted = Float64Array.from(order, (row) => at(seconds, row))
  const left = table.rows.length - kept.length
  return {
    seconds: sorted,
    intervalSeconds: intervalOf(sorted),
    channels: built.map(({ channel }) => channel),
    words: wordsAt === null ? null : Array.from(order, (row) => (rows[row]?.[wordsAt] ?? '').trim()),
    findings: [
      ...(left === 0 ? [] : [finding('unread-lines', 'note', `${left} lines below the header have no readable time.`)]),
      ...times.findings,
      ...findings,
      ...raws.flatMap((raw) => raw.findings),
      ...built.flatMap((each) => each.findings),
    ],
  }
}

function channelOf<Role extends string>(
  { role, column, scale, possible }: WantedColumn<Role>,
  readings: Float64Array,
  converted: Float64Array,
  order: Uint32Array,
): { readonly channel: PlainChannel<Role>; readonly findings: readonly SteamFinding[] } {
  let impossible = 0
  const values = Float64Array.from(order, (row) => {
    const value = at(converted, row)
    const outside = value < possible.low || value > possible.high
    if (outside) impossible += 1
    return outside ? Number.NaN : value
  })
  const says = `"${column}": ${impossible} readings outside ${possible.low} to ${possible.high} ${possible.unit} count as missing.`
  return {
    channel: { name: column, role, values, resolution: resolutionOf(readings) * scale },
    findings: impossible > 0 ? [finding('impossible-readings', 'caution', says)] : [],
  }
}

/** Whether a column holds numbers at all: most cells that are not blank are one. */
export function isNumeric(table: LogTable, column: number): boolean {
  const cells = table.rows.slice(0, 200).map((row) => row[column] ?? '')
  const full = cells.filter((cell) => !isBlankLike(cell))
  const numbers = full.filter((cell) => !Number.isNaN(cellNumber(cell, table.decimalComma)))
  return full.length > 0 && numbers.length > full.length / 2
}
