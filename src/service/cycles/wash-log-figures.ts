import type { Problem } from '#units/problem.ts'
import { a0Seconds } from '#workings/physics/a0.ts'
import { cellNumber } from '#workings/steam/cell.ts'
import { readLogText, type LogTable } from '#workings/steam/log-text.ts'
import { readTimes, timeFormatOf } from '#workings/steam/log-time.ts'
import { isUnusable } from '#workings/steam/unusable.ts'

export interface WashFigure {
  readonly name: string
  /** A0 over the whole log, drying included where it was logged. */
  readonly a0Seconds: number
}

/** The A0 of the coldest temperature column of a washer's log. */
export function washLogFigures(text: string): { readonly coldest: WashFigure } | { readonly problem: Problem } {
  const table = readLogText(text)
  if (isUnusable(table)) return { problem: table.problem }
  const time = table.header.findIndex((name) => /time|elapsed|second|clock/i.test(name))
  if (time < 0)
    return { problem: { field: 'log', wanted: 'a time column', current: `columns ${table.header.join(', ')}` } }
  const { seconds } = readTimes(table, time, timeFormatOf(table, time))
  const figures = table.header.flatMap((name, column) =>
    column !== time && isTemperature(table, column) ? [figureOf(table, { name, column, seconds })] : [],
  )
  const [first, ...others] = figures
  if (first === undefined) {
    return { problem: { field: 'log', wanted: 'a column in °C', current: `columns ${table.header.join(', ')}` } }
  }
  return { coldest: others.reduce((coldest, each) => (each.a0Seconds < coldest.a0Seconds ? each : coldest), first) }
}

/** By its unit, in the units row or after the name; a column called a temperature without a unit is in °C. */
function isTemperature({ header, units }: LogTable, column: number): boolean {
  const name = header[column] ?? ''
  const unit = units?.[column] ?? /[([]([^)\]]*)[)\]]\s*$|[_\s](°?[CF])$/.exec(name)?.slice(1).find(Boolean)
  return unit === undefined ? /temp/i.test(name) : /^[[(]?(?:°|deg\.?)?\s?C[\])]?$/i.test(unit.trim())
}

function figureOf(
  { rows, decimalComma }: LogTable,
  { name, column, seconds }: { readonly name: string; readonly column: number; readonly seconds: Float64Array },
): WashFigure {
  const samples = rows
    .map((row, index) => ({
      seconds: seconds[index] ?? Number.NaN,
      temperatureC: cellNumber(row[column] ?? '', decimalComma),
    }))
    .filter((sample) => !Number.isNaN(sample.seconds) && !Number.isNaN(sample.temperatureC))
    .toSorted((a, b) => a.seconds - b.seconds)
  return { name, a0Seconds: samples.length < 2 ? 0 : a0Seconds(samples) }
}
