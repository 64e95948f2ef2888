import { z } from 'zod'
import { LogCriterion, verdictOf } from '../logs/judged.ts'
import { readPlainLog, type WantedColumn } from '../logs/plain-log.ts'
import { inWindow, sureRun, type Sureness, together } from '../logs/sure-run.ts'
import { withoutStuck } from '../logs/stuck-channels.ts'
import { CriterionResult } from '../steam/criterion.ts'
import { SteamFinding, finding } from '../steam/finding.ts'
import { celsiusOf, kelvinsIn, kilopascalsIn, kilopascalsOf } from '../steam/log-map.ts'
import { readLogText } from '../steam/log-text.ts'
import { at, figure, rangeOf } from '../steam/series.ts'
import { isUnusable, type Unusable, unusable } from '../steam/unusable.ts'
import {
  cancelledCriterion,
  exposureCriterion,
  type GasLog,
  gasNames,
  longestCriterion,
  windowCriterion,
} from './gas-criteria.ts'
import { type GasLogMap, gasMapByNames, possibleReadings } from './gas-map.ts'
import {
  gasMethods,
  gasProgramByKey,
  gasPrograms,
  type GasProgram,
  type GasVariable,
  type NamedGasProgram,
  ownProgramSource,
} from './gas-program.ts'

const figureOrNull = z.number().nullable()

/** One gas or dry heat cycle, read and judged. A figure that cannot be had is null. */
export const GasCycleReading = z.strictObject({
  verdict: CriterionResult,
  method: z.enum(gasMethods),
  cancelled: z.boolean().describe('the log itself says that the cycle was cancelled'),
  exposureSeconds: figureOrNull.describe(
    'longest time with every variable of the programme in its window for certain, s',
  ),
  exposure: z.strictObject({ startSeconds: z.number(), endSeconds: z.number() }).nullable(),
  variables: z.array(
    z.strictObject({
      variable: z.string(),
      channels: z.array(z.string()),
      min: figureOrNull.describe('lowest in the exposure'),
      max: figureOrNull.describe('highest in the exposure'),
    }),
  ),
  criteria: z.array(LogCriterion),
  findings: z.array(SteamFinding),
})
export type GasCycleReading = z.infer<typeof GasCycleReading>

export interface GasCycleRequest {
  readonly log: string
  readonly program: string | GasProgram
  readonly map?: GasLogMap | undefined
}

/** Gas logs are sampled slowly: a hole of this long, or of three samples, is not known. */
const longestGapSeconds = 120
const negligibleStep = 0.05
/** Reads a log and judges it: every variable in its window, all together, for the whole exposure. */
export function readGasCycle(request: GasCycleRequest): { kind: 'read'; reading: GasCycleReading } | Unusable {
  const named = typeof request.program === 'string' ? gasProgramByKey(request.program) : undefined
  const program = typeof request.program === 'string' ? named?.program : request.program
  if (program === undefined)
    return unusable(
      'program',
      `one of ${gasPrograms.map(({ key }) => key).join(', ')}, or a programme in full`,
      JSON.stringify(request.program),
    )
  const read = gasLogOf(request)
  if (isUnusable(read)) return read
  const log = believedGasLog(read, program)
  return { kind: 'read', reading: judged(log, program, named ?? { source: ownProgramSource }) }
}

/** The log without what stuck sensors wrote. */
export function believedGasLog(read: GasLog, { windows }: GasProgram): GasLog {
  return withoutStuck(read, {
    leastSeconds: 300,
    moved: (role) => gasNames[role].moved,
    alone: {
      leastSeconds: 900,
      finestStep: (role) => gasNames[role].fineStep,
      counts: (role, reading) =>
        windows.some(
          ({ variable, from, to }) => variable === role && reading >= (from ?? reading) && reading <= (to ?? reading),
        ),
    },
  })
}

/** The log as channels in order of time, before anything is judged. */
export function gasLogOf({ log: text, map: given }: GasCycleRequest): GasLog | Unusable {
  const table = readLogText(text, given?.time.column)
  if (isUnusable(table)) return table
  const mapped = given === undefined ? gasMapByNames(table) : { map: given, findings: [] }
  if (isUnusable(mapped)) return mapped
  const { map } = mapped
  if (map.pressure?.gauge === true && map.pressure.atmosphereKPa === undefined)
    return unusable('map pressure.atmosphereKPa', 'the local atmosphere in kPa', 'missing')
  const log = readPlainLog(table, { time: map.time, columns: columnsOf(map), words: map.stage?.column ?? null })
  return isUnusable(log) ? log : { ...log, findings: [...mapped.findings, ...log.findings] }
}

function columnsOf(map: GasLogMap): WantedColumn<GasVariable>[] {
  const plain = (role: GasVariable, column: string | undefined): WantedColumn<GasVariable>[] =>
    column === undefined
      ? []
      : [{ role, column, scale: 1, convert: (reading) => reading, possible: possibleReadings[role] }]
  const { pressure } = map
  return [
    ...map.temperatures.map(({ column, unit }) => ({
      role: 'temperatureC' as const,
      column,
      scale: kelvinsIn[unit],
      convert: (reading: number) => celsiusOf(reading, unit),
      possible: possibleReadings.temperatureC,
    })),
    ...plain('relativeHumidityPercent', map.humidity?.column),
    ...plain('concentrationMgPerL', map.concentration?.column),
    ...(pressure === undefined
      ? []
      : [
          {
            role: 'pressureKPa' as const,
            column: pressure.column,
            scale: kilopascalsIn[pressure.unit],
            convert: (reading: number) =>
              kilopascalsOf(reading, {
                unit: pressure.unit,
                gauge: pressure.gauge,
                ...(pressure.atmosphereKPa === undefined ? {} : { atmosphereKPa: pressure.atmosphereKPa }),
              }),
            possible: possibleReadings.pressureKPa,
          },
        ]),
  ]
}

function judged(
  log: GasLog,
  program: GasProgram,
  { source, windowSources: sources = {} }: Pick<NamedGasProgram, 'source' | 'windowSources'>,
): GasCycleReading {
  const gap = Math.max(longestGapSeconds, 3 * log.intervalSeconds)
  const perWindow = program.windows.map((window) => ({ window, states: statesOf(log, window) }))
  const joint =
    log.seconds.length === 0
      ? []
      : Array.from(log.seconds, (_, index) => together(perWindow.map(({ states }) => states[index] ?? 'unknown')))
  const run = sureRun(log.seconds, joint, gap)
  const cancelledAt =
    log.words?.findIndex((word) => /cancel|abort|abbruch|abgebrochen|annul|interrupt|fail/i.test(word)) ?? -1
  const criteria = [
    ...(cancelledAt < 0 ? [] : [cancelledCriterion(source)]),
    exposureCriterion(run, program.exposureSeconds, source),
    ...(program.longestExposureSeconds === undefined
      ? []
      : [longestCriterion(run, program.longestExposureSeconds, source)]),
    ...perWindow.map(({ window, states }) =>
      windowCriterion({
        log,
        window,
        run: sureRun(log.seconds, states, gap),
        seconds: program.exposureSeconds,
        source: sources[window.variable] ?? source,
      }),
    ),
  ]
  return {
    verdict: verdictOf(criteria),
    method: program.method,
    cancelled: cancelledAt >= 0,
    exposureSeconds: run.span === null ? null : figure(run.atLeastSeconds),
    exposure:
      run.span === null
        ? null
        : { startSeconds: at(log.seconds, run.span.from), endSeconds: at(log.seconds, run.span.to) },
    variables: program.windows.map(({ variable }) => {
      const channels = log.channels.filter(({ role }) => role === variable)
      const ranges =
        run.span === null ? [] : channels.map(({ values }) => rangeOf(values, run.span?.from ?? 0, run.span?.to ?? 0))
      return {
        variable,
        channels: channels.map(({ name }) => name),
        min: figure(ranges.length === 0 ? null : Math.min(...ranges.map(({ min }) => min))),
        max: figure(ranges.length === 0 ? null : Math.max(...ranges.map(({ max }) => max))),
      }
    }),
    criteria,
    findings: [
      ...log.findings,
      ...gapFindings(log, gap),
      ...(program.method === 'ethyleneOxide'
        ? [finding('aerate', 'caution', 'The load is not to be touched before its aeration is done.')]
        : []),
    ],
  }
}

/** Every channel of the variable counts: one outside is outside. A variable without a channel is not known. */
export function statesOf(log: GasLog, { variable, from, to }: GasProgram['windows'][number]): Sureness[] {
  const channels = log.channels.filter(({ role }) => role === variable)
  if (channels.length === 0) return Array.from(log.seconds, () => 'unknown' as const)
  const low = from ?? Number.NEGATIVE_INFINITY
  const high = to ?? Number.POSITIVE_INFINITY
  return Array.from(log.seconds, (_, index) =>
    together(
      channels.map(({ values, resolution }) =>
        inWindow(at(values, index), resolution < negligibleStep ? 0 : resolution / 2, low, high),
      ),
    ),
  )
}

function gapFindings({ seconds }: GasLog, longest: number): SteamFinding[] {
  const holes: string[] = []
  for (let index = 1; index < seconds.length; index += 1) {
    const step = at(seconds, index) - at(seconds, index - 1)
    if (step > longest) holes.push(`${Math.round(step)} s after ${Math.round(at(seconds, index - 1))} s`)
  }
  if (holes.length === 0) return []
  return [
    finding(
      'gap',
      'caution',
      `Samples are missing: ${holes.slice(0, 3).join(', ')}. What happened there is not known.`,
    ),
  ]
}
