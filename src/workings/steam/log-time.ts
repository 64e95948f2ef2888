import { cellNumber } from './cell.ts'
import { clockSeconds, dateDays, isoSeconds, splitDated } from './clock-cell.ts'
import { type SteamFinding, finding } from './finding.ts'
import type { SteamLogMap } from './log-map.ts'
import type { LogTable } from './log-text.ts'
import { at } from './series.ts'

const halfDay = 43_200
const day = 86_400

/** Times of the rows in seconds (NaN where unreadable): as logged for elapsed seconds, else from the first row. */
export interface LogTimes {
  readonly seconds: Float64Array
  readonly findings: readonly SteamFinding[]
}

/** Reads the time column in its format, across midnight and across a counter that starts again. */
export function readTimes(table: LogTable, column: number, format: SteamLogMap['time']['format']): LogTimes {
  const cells = table.rows.map((row) => row[column] ?? '')
  switch (format) {
    case 'seconds':
      return unrestarted(Float64Array.from(cells, (cell) => cellNumber(cell, table.decimalComma)))
    case 'iso':
      return { seconds: fromFirst(Float64Array.from(cells, isoSeconds)), findings: [] }
    case 'clock':
      return readClock(cells, dateCells(table, column))
  }
}

/** Which format a time column is in, by looking at its cells. */
export function timeFormatOf(table: LogTable, column: number): SteamLogMap['time']['format'] {
  const cells = table.rows.slice(0, 50).map((row) => row[column] ?? '')
  const count = (read: (cell: string) => number) => cells.filter((cell) => !Number.isNaN(read(cell))).length
  const iso = count(isoSeconds)
  const clock = count((cell) => clockSeconds(splitDated(cell).clock))
  const plain = count((cell) => cellNumber(cell, table.decimalComma))
  if (plain >= Math.max(iso, clock)) return 'seconds'
  return iso >= clock ? 'iso' : 'clock'
}

function dateCells(table: LogTable, timeColumn: number): string[] | null {
  const column = table.header.findIndex(
    (name, index) => index !== timeColumn && /^(date|datum|fecha|data)\b/i.test(name),
  )
  return column < 0 ? null : table.rows.map((row) => row[column] ?? '')
}

function readClock(cells: readonly string[], dates: readonly string[] | null): LogTimes {
  const parts = cells.map(splitDated)
  const clock = Float64Array.from(clocksOf(parts.map((part) => part.clock)))
  const days = parts.map((part, index) => dateDays(part.date === '' ? (dates?.[index] ?? '') : part.date))
  const dated = days.some(({ dayFirst, monthFirst }) => !Number.isNaN(dayFirst) || !Number.isNaN(monthFirst))
  if (!dated) return acrossMidnight(clock)
  const either = [days.map((both) => both.dayFirst), days.map((both) => both.monthFirst)].map((order) =>
    Float64Array.from(clock, (second, index) => second + (order[index] ?? Number.NaN) * day),
  )
  // Both orders of day and month can be possible: the one that reads more rows, then the one in which the log is shorter.
  const best = either.sort((a, b) => unreadable(a) - unreadable(b) || spanOf(a) - spanOf(b))[0] ?? clock
  return { seconds: fromFirst(best), findings: [] }
}

/** Two-part times are hours and minutes, unless one of them has no such hour: then they are minutes and seconds. */
function clocksOf(cells: readonly string[]): number[] {
  const seconds = cells.map(clockSeconds)
  const twoPart = cells.some((cell) => /^\d{1,3}:\d{2}$/.test(cell)) && !cells.some((cell) => /:\d{2}:/.test(cell))
  return twoPart && seconds.some((second) => second >= day) ? seconds.map((second) => second / 60) : seconds
}

/** Each step of a time of day is read as the shorter way round the clock, so out-of-order rows survive midnight. */
function acrossMidnight(clock: Float64Array): LogTimes {
  const seconds = new Float64Array(clock.length)
  let last = Number.NaN
  let offset = 0
  let crossings = 0
  for (let index = 0; index < clock.length; index += 1) {
    const second = at(clock, index)
    const step = second - last
    if (Math.abs(step) > halfDay) {
      offset += step < 0 ? day : -day
      crossings += 1
    }
    if (!Number.isNaN(second)) last = second
    seconds[index] = second + offset
  }
  const findings =
    crossings > 0
      ? [finding('across-midnight', 'note', 'The clock passes midnight in this log; times run on into the next day.')]
      : []
  return { seconds: fromFirst(seconds), findings }
}

/** A counter that starts again near its first value opens a new piece, an hour after the last one. */
function unrestarted(seconds: Float64Array): LogTimes {
  const read = seconds.filter((second) => !Number.isNaN(second))
  const first = at(read, 0)
  let backward = 0
  let restarts = 0
  for (let index = 1; index < read.length; index += 1) {
    const step = at(read, index) - at(read, index - 1)
    if (step < 0) backward += 1
    if (step < -300 && at(read, index) - first <= 5) restarts += 1
  }
  if (restarts === 0 || restarts !== backward) return { seconds, findings: [] }
  let offset = 0
  let last = Number.NaN
  const joined = seconds.map((second) => {
    if (second < last) offset += last + 3600 - second
    if (!Number.isNaN(second)) last = second
    return second + offset
  })
  const says = `The elapsed time starts again ${restarts} ${restarts === 1 ? 'time' : 'times'}; each piece was set one hour after the one before.`
  return { seconds: joined, findings: [finding('time-restarts', 'caution', says)] }
}

function fromFirst(seconds: Float64Array): Float64Array {
  const first = seconds.reduce((least, second) => (second < least ? second : least), Number.POSITIVE_INFINITY)
  return seconds.map((second) => Math.round((second - first) * 1e6) / 1e6)
}

function unreadable(seconds: Float64Array): number {
  return seconds.reduce((count, second) => count + (Number.isNaN(second) ? 1 : 0), 0)
}

function spanOf(seconds: Float64Array): number {
  let low = Number.POSITIVE_INFINITY
  let high = Number.NEGATIVE_INFINITY
  for (const second of seconds) {
    if (second < low) low = second
    if (second > high) high = second
  }
  return high - low
}
