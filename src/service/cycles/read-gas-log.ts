import { type Problem, problemsOf } from '#units/problem.ts'
import { type Instant, instant, millis } from '#road/instant.ts'
import { gasReportOf } from '#road/gases/gas-report-of.ts'
import { type GasChart, gasChart } from '#workings/gas/gas-chart.ts'
import { GasLogMap } from '#workings/gas/gas-map.ts'
import { gasProgramByKey, type GasProgram } from '#workings/gas/gas-program.ts'
import { gasLogOf, readGasCycle } from '#workings/gas/read-gas-cycle.ts'
import { at } from '#workings/steam/series.ts'
import { isUnusable } from '#workings/steam/unusable.ts'
import type { CycleChart, CycleLogAnswer } from '../api-types.ts'
import type { CycleTask } from './read-cycles.ts'
import { startOfLog } from './start-of-log.ts'

const points = 1500

/** The programme that a log is to be read by: the machine's own, then the one that the policy changes, then the published one. */
export function gasProgramOf({ program, windows }: CycleTask): GasProgram | string | undefined {
  return windows?.[program] ?? (gasProgramByKey(program) === undefined ? undefined : program)
}

/** Reads the one cycle of a gas log, in the same form as the cycles of a steam log. */
export function readGasLog(
  task: CycleTask,
  program: GasProgram | string,
): CycleLogAnswer | { readonly problems: readonly Problem[] } {
  const map = task.map === undefined ? undefined : GasLogMap.safeParse(task.map)
  if (map?.success === false) {
    return { problems: problemsOf(map.error, task.map).map((each) => ({ ...each, field: `map.${each.field}` })) }
  }
  if (task.cycle !== undefined && task.cycle !== 1) {
    return { problems: [{ field: 'cycle', wanted: '1, the one cycle of this log', current: String(task.cycle) }] }
  }
  const request = { log: task.text, program, map: map?.data }
  const result = readGasCycle(request)
  if (isUnusable(result)) return { problems: [result.problem] }
  const log = gasLogOf(request)
  if (isUnusable(log)) return { problems: [log.problem] }
  const chart = gasChart(request, points)
  if (isUnusable(chart)) return { problems: [chart.problem] }
  const start = task.startedAt ?? startOfLog(task.text, undefined)
  const moment = (second: number): Instant | null =>
    start === null ? null : instant(Math.round(millis(start) + second * 1000))
  const { reading } = result
  const cycle = {
    cycle: 1,
    startedAt: moment(at(log.seconds, 0)),
    endedAt: moment(at(log.seconds, log.seconds.length - 1)),
    report: gasReportOf(reading),
    chart: chartOf(chart, reading.exposure),
  }
  return { program: task.program, cycles: [cycle] }
}

function chartOf({ seconds, lines, phases, pins }: GasChart, exposure: CycleChart['plateau']): CycleChart {
  return {
    seconds,
    pressureKPa: lines.find(({ variable }) => variable === 'pressureKPa')?.values ?? [],
    theoreticalC: [],
    lethalityMinutes: [],
    channels: lines
      .filter(({ variable }) => variable === 'temperatureC')
      .map(({ name, values }, place) => ({
        name,
        role: place === 0 ? ('reference' as const) : ('load' as const),
        celsius: values,
      })),
    phases: phases.length > 0 || exposure === null ? phases : [{ phase: 'exposure', ...exposure }],
    plateau: exposure,
    pins,
    gas: lines,
  }
}
