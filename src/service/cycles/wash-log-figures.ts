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

function isTemperature({ header, units }: LogTable, column: number): boolean {
  return /(?:^|[^a-z])(?:°|deg)?\s?C(?:[^a-z]|$)/i.test(`${units?.[column] ?? ''} ${unitInName(header[column] ?? '')}`)
}

function unitInName(name: string): string {
  return /[([]([^)\]]*)[)\]]\s*$/.exec(name)?.[1] ?? /temp/i.exec(name)?.[0]?.replace(/.*/, 'C') ?? ''
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
