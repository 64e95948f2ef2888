import { type Problem, problemsOf } from '#units/problem.ts'
import { type Instant, instant, millis } from '#road/instant.ts'
import { steamCycleChart } from '#workings/steam/chart.ts'
import { SteamLogMap } from '#workings/steam/log-map.ts'
import { readSteamCycles, type SteamCyclesRequest } from '#workings/steam/read-steam-cycles.ts'
import type { SteamCycleReading } from '#workings/steam/reading.ts'
import { isUnusable } from '#workings/steam/unusable.ts'
import type { CycleLogAnswer, CycleReading } from '../api-types.ts'
import { chartOf } from './chart-of.ts'
import { reportOf } from '#road/sterilising/report-of.ts'
import type { GasProgram } from '#workings/gas/gas-program.ts'
import { gasProgramOf, readGasLog } from './read-gas-log.ts'
import { startOfLog } from './start-of-log.ts'

/** A log and how it is to be read: plain data, since it is sent to a worker thread. */
export interface CycleTask {
  readonly text: string
  readonly program: string
  readonly map?: Readonly<Record<string, unknown>> | undefined
  readonly chamberLitres?: number | undefined
  readonly cycle?: number | undefined
  /** Programmes of a gas or dry heat machine, by their names. */
  readonly windows?: Readonly<Record<string, GasProgram>> | undefined
  /** When the first reading was, for a log that does not say. */
  readonly startedAt?: Instant | undefined
}

type Unusable = { readonly problems: readonly Problem[] }

/** Reads every cycle of a log, or the one asked for, each with its curves. */
export function readCycles(task: CycleTask): CycleLogAnswer | Unusable {
  const gas = gasProgramOf(task)
  if (gas !== undefined) return readGasLog(task, gas)
  const request = requestOf(task)
  if ('problems' in request) return request
  const read = readSteamCycles(request)
  if (isUnusable(read)) return { problems: [read.problem] }
  const start = task.startedAt ?? startOfLog(task.text, request.map)
  const cycles: CycleReading[] = []
  for (const reading of read.cycles) {
    const chart = steamCycleChart({ ...request, cycle: reading.cycle })
    if (isUnusable(chart)) return { problems: [chart.problem] }
    cycles.push({ ...whenOf(reading, chart.seconds, start), report: reportOf(reading), chart: chartOf(chart, reading) })
  }
  return { program: task.program, cycles }
}

function requestOf({ text, program, map, chamberLitres, cycle }: CycleTask): SteamCyclesRequest | Unusable {
  const request = { log: text, program, volumeLitres: chamberLitres, cycle }
  if (map === undefined) return request
  const parsed = SteamLogMap.safeParse(map)
  if (parsed.success) return { ...request, map: parsed.data }
  return { problems: problemsOf(parsed.error, map).map((each) => ({ ...each, field: `map.${each.field}` })) }
}

/** The cycle's own begin and end within the log, idle time before and after it left out. */
function whenOf(
  reading: SteamCycleReading,
  seconds: readonly number[],
  start: Instant | null,
): Pick<CycleReading, 'cycle' | 'startedAt' | 'endedAt'> {
  const first = seconds[0] ?? 0
  const from = reading.phases[0]?.startSeconds ?? first
  const to = reading.phases.at(-1)?.endSeconds ?? seconds.at(-1) ?? first
  const at = (second: number): Instant | null =>
    start === null ? null : instant(Math.round(millis(start) + second * 1000))
  return { cycle: reading.cycle, startedAt: at(from), endedAt: at(to) }
}
