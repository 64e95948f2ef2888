import type { Problem } from '#units/problem.ts'
import { a0Seconds } from '#workings/physics/a0.ts'
import { isUnusable } from '#workings/steam/unusable.ts'
import { readWasherLog } from '#workings/washer/washer-log.ts'
import type { WasherLogMap } from '#workings/washer/washer-map.ts'

export interface WashFigure {
  readonly name: string
  /** A0 over the whole log, drying included where it was logged. */
  readonly a0Seconds: number
}

/** The A0 of the coldest temperature column of a washer's log. */
export function washLogFigures(
  text: string,
  map: WasherLogMap | undefined,
): { readonly coldest: WashFigure } | { readonly problem: Problem } {
  const log = readWasherLog(text, map)
  if (isUnusable(log)) return { problem: log.problem }
  const figures = log.channels
    .filter(({ role }) => role === 'temperature')
    .map(({ name, values }) => {
      const samples = Array.from(log.seconds, (seconds, place) => ({
        seconds,
        temperatureC: values[place] ?? Number.NaN,
      })).filter(({ temperatureC }) => !Number.isNaN(temperatureC))
      return { name, a0Seconds: samples.length < 2 ? 0 : a0Seconds(samples) }
    })
  const [first, ...others] = figures
  if (first === undefined) return { problem: { field: 'log', wanted: 'a temperature column', current: 'none' } }
  return { coldest: others.reduce((coldest, each) => (each.a0Seconds < coldest.a0Seconds ? each : coldest), first) }
}
