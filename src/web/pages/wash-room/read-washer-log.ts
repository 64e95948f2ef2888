import { a0Seconds } from '#workings/physics/a0.ts'
import { cellNumber } from '#workings/steam/cell.ts'
import { readLogText, type LogTable } from '#workings/steam/log-text.ts'
import { readTimes, timeFormatOf } from '#workings/steam/log-time.ts'
import { isUnusable } from '#workings/steam/unusable.ts'
import { describeProblem } from '#units/problem.ts'

export interface WasherReading {
  readonly a0Seconds: number | null
  readonly coldest?: string
}

const phaseName = /phase|stage|step/i
const dryingName = /dry/i

/**
 * The A0 of the coldest temperature column. Where the log names its phases, drying ends the count;
 * a log without readable times or temperatures gives no figure.
 */
export function readWasherLog(text: string): WasherReading {
  const table = readLogText(text)
  if (isUnusable(table)) throw new RangeError(describeProblem(table.problem))
  const time = table.header.findIndex((name) => /time|elapsed|second|clock/i.test(name))
  if (time < 0) return { a0Seconds: null }
  const { seconds } = readTimes(table, time, timeFormatOf(table, time))
  const phase = table.header.findIndex((name) => phaseName.test(name))
  const drying = phase < 0 ? -1 : table.rows.findIndex((row) => dryingName.test(row[phase] ?? ''))
  const figures = table.header.flatMap((name, column) => {
    if (column === time || !isTemperature(table, column)) return []
    const whole = samplesOf(table, column, seconds, table.rows.length)
    const counted = drying < 0 ? whole : samplesOf(table, column, seconds, drying)
    return whole.length < 2
      ? []
      : [{ name, whole: a0Seconds(whole), counted: counted.length < 2 ? 0 : a0Seconds(counted) }]
  })
  const [first, ...others] = figures
  if (first === undefined) return { a0Seconds: null }
  const coldest = others.reduce((least, each) => (each.whole < least.whole ? each : least), first)
  return { a0Seconds: Math.round(coldest.counted), coldest: coldest.name }
}

function isTemperature({ header, units }: LogTable, column: number): boolean {
  const name = header[column] ?? ''
  const unit = /[([]([^)\]]*)[)\]]\s*$/.exec(name)?.[1] ?? (/temp/i.test(name) ? 'C' : '')
  return /(?:^|[^a-z])(?:°|deg)?\s?C(?:[^a-z]|$)/i.test(`${units?.[column] ?? ''} ${unit}`)
}

function samplesOf(table: LogTable, column: number, seconds: Float64Array, rows: number) {
  return table.rows
    .slice(0, rows)
    .map((row, index) => ({
      seconds: seconds[index] ?? Number.NaN,
      temperatureC: cellNumber(row[column] ?? '', table.decimalComma),
    }))
    .filter((sample) => !Number.isNaN(sample.seconds) && !Number.isNaN(sample.temperatureC))
    .toSorted((a, b) => a.seconds - b.seconds)
}
