import { describeProblem } from '#units/problem.ts'
import { figure } from '#workings/steam/series.ts'
import { isUnusable } from '#workings/steam/unusable.ts'
import { a0Curve } from '#workings/washer/a0-curve.ts'
import { readWasherCycles, type WasherCycleReading } from '#workings/washer/read-washer-cycles.ts'
import { gapLimit } from '#workings/washer/washer-heat.ts'
import { readWasherLog as channelsIn, type WasherLog } from '#workings/washer/washer-log.ts'
import type { WasherLogMap } from '#workings/washer/washer-map.ts'
import { washerPrograms } from '#workings/washer/washer-program.ts'

export interface WasherReading {
  readonly a0Seconds: number | null
  readonly coldest?: string
  readonly cycle: WasherCycleReading
  readonly chart: WasherChartData
}

export interface WasherChartData {
  readonly seconds: readonly number[]
  readonly channels: readonly { readonly name: string; readonly celsius: readonly (number | null)[] }[]
  /** A0 of the coldest channel as it gathered, up to where the count ends; empty where it cannot be told. */
  readonly a0: readonly { readonly second: number; readonly a0Seconds: number }[]
}

const points = 600

/**
 * The last cycle of a washer's log, read by the programme whose band it enters. What cannot be told from the log is not
 * evaluable, and no figure is given for it.
 */
export function readWasherLog(text: string, map: WasherLogMap | undefined): WasherReading {
  const readings = washerPrograms.map(({ key }) => readWasherCycles({ log: text, program: key, map }))
  const [first] = readings
  if (first === undefined || isUnusable(first)) {
    throw new RangeError(first === undefined ? 'no programme' : describeProblem(first.problem))
  }
  const lasts = readings.flatMap((read) => (isUnusable(read) ? [] : (read.cycles.at(-1) ?? [])))
  const cycle = lasts.find((each) => each.disinfection !== null) ?? lasts[0]
  if (cycle === undefined) throw new RangeError('the log has no cycle')
  const a0Seconds = cycle.a0Seconds === null ? null : Math.round(cycle.a0Seconds)
  const coldest = cycle.coldestChannel
  return { a0Seconds, ...(coldest === null ? {} : { coldest }), cycle, chart: chartOf(text, map, cycle) }
}

function chartOf(text: string, map: WasherLogMap | undefined, cycle: WasherCycleReading): WasherChartData {
  const log = channelsIn(text, map)
  if (isUnusable(log)) return { seconds: [], channels: [], a0: [] }
  const step = Math.max(1, Math.ceil(log.seconds.length / points))
  const kept = Array.from(log.seconds.keys()).filter((place) => place % step === 0)
  return {
    seconds: kept.map((place) => log.seconds[place] ?? 0),
    channels: log.channels
      .filter(({ role }) => role === 'temperature')
      .map(({ name, values }) => ({ name, celsius: kept.map((place) => figure(values[place])) })),
    a0: a0Of(log, cycle),
  }
}

/** How far the figure of the reading and the end of the curve may lie apart: what rounding brings. */
const mostApart = 0.01

function a0Of(log: WasherLog, cycle: WasherCycleReading): WasherChartData['a0'] {
  const coldest = log.channels.find(({ name }) => name === cycle.coldestChannel)
  const { countedUntilSeconds: until, a0Seconds: whole } = cycle
  if (coldest === undefined || until === null || whole === null) return []
  const from = cycle.stages[0]?.startSeconds ?? log.seconds[0] ?? 0
  const samples = Array.from(log.seconds, (seconds, place) => ({
    seconds,
    temperatureC: coldest.values[place] ?? Number.NaN,
  })).filter(({ seconds, temperatureC }) => seconds >= from && seconds <= until && !Number.isNaN(temperatureC))
  const curve = a0Curve(samples, gapLimit(log))
  // Of a log with several cycles and no stages where this one begins cannot be told: no curve rather than a wrong one.
  if (Math.abs((curve.at(-1) ?? 0) - whole) > mostApart * Math.max(1, whole)) return []
  const step = Math.max(1, Math.ceil(samples.length / points))
  return samples.flatMap(({ seconds }, place) =>
    place % step === 0 || place === samples.length - 1 ? [{ second: seconds, a0Seconds: curve[place] ?? 0 }] : [],
  )
}
