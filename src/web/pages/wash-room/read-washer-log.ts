import { describeProblem } from '#units/problem.ts'
import { figure } from '#workings/steam/series.ts'
import { isUnusable } from '#workings/steam/unusable.ts'
import { readWasherCycles, type WasherCycleReading } from '#workings/washer/read-washer-cycles.ts'
import { readWasherLog as channelsIn } from '#workings/washer/washer-log.ts'
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
}

const points = 600

/**
 * The last cycle of a washer's log, read by the programme whose band it enters. What cannot be told from the log is not
 * evaluable, and no figure is given for it.
 */
export function readWasherLog(text: string): WasherReading {
  const readings = washerPrograms.map(({ key }) => readWasherCycles({ log: text, program: key }))
  const [first] = readings
  if (first === undefined || isUnusable(first)) {
    throw new RangeError(first === undefined ? 'no programme' : describeProblem(first.problem))
  }
  const lasts = readings.flatMap((read) => (isUnusable(read) ? [] : (read.cycles.at(-1) ?? [])))
  const cycle = lasts.find((each) => each.disinfection !== null) ?? lasts[0]
  if (cycle === undefined) throw new RangeError('the log has no cycle')
  const a0Seconds = cycle.a0Seconds === null ? null : Math.round(cycle.a0Seconds)
  const coldest = cycle.coldestChannel
  return { a0Seconds, ...(coldest === null ? {} : { coldest }), cycle, chart: chartOf(text) }
}

function chartOf(text: string): WasherChartData {
  const log = channelsIn(text, undefined)
  if (isUnusable(log)) return { seconds: [], channels: [] }
  const step = Math.max(1, Math.ceil(log.seconds.length / points))
  const kept = Array.from(log.seconds.keys()).filter((place) => place % step === 0)
  return {
    seconds: kept.map((place) => log.seconds[place] ?? 0),
    channels: log.channels
      .filter(({ role }) => role === 'temperature')
      .map(({ name, values }) => ({ name, celsius: kept.map((place) => figure(values[place])) })),
  }
}
