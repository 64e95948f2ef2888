import { z } from 'zod'
import { LogCriterion, resultOf, verdictOf } from '../logs/judged.ts'
import { sureRun, type SureRun } from '../logs/sure-run.ts'
import { CriterionResult } from '../steam/criterion.ts'
import { SteamFinding, finding } from '../steam/finding.ts'
import { at, figure, medianOf, rangeOf } from '../steam/series.ts'
import { isUnusable, type Unusable, unusable } from '../steam/unusable.ts'
import { bandStates, type ChannelHeat, gapLimit, heatOf } from './washer-heat.ts'
import { readWasherLog, type WasherLog } from './washer-log.ts'
import type { WasherLogMap } from './washer-map.ts'
import {
  a0Limit,
  bandRule,
  rinseRule,
  type WasherProgram,
  washerProgramByKey,
  washerPrograms,
} from './washer-program.ts'
import { isDrying, namedStages, type Stretch, washerCycles, type WasherStage } from './washer-stages.ts'

const figureOrNull = z.number().nullable()
const Span = z.strictObject({ startSeconds: z.number(), endSeconds: z.number() })

/** One cycle of a washer-disinfector, read and judged. A figure that cannot be had is null. */
export const WasherCycleReading = z.strictObject({
  verdict: CriterionResult,
  a0Seconds: figureOrNull.describe('A0 of the coldest channel up to the end of the disinfection, s'),
  coldestChannel: z.string().nullable(),
  channels: z.array(z.strictObject({ name: z.string(), a0Seconds: z.number() })),
  a0WithDryingSeconds: figureOrNull.describe(
    'what the coldest channel would give with the drying: never to be used, s',
  ),
  countedUntilSeconds: figureOrNull.describe('where the count ends, s'),
  holdingSeconds: figureOrNull.describe('longest unbroken time of all channels in the band, s'),
  disinfection: Span.nullable(),
  minC: figureOrNull.describe('lowest temperature in it, °C'),
  maxC: figureOrNull.describe('highest temperature in it, °C'),
  lastRinseMicroSPerCm: figureOrNull.describe('conductivity at the end of the last rinse, µS/cm'),
  stages: z.array(z.strictObject({ name: z.string(), startSeconds: z.number(), endSeconds: z.number() })),
  criteria: z.array(LogCriterion),
  findings: z.array(SteamFinding),
  cycle: z.number().int().describe('which cycle of the log, from 1'),
  cycles: z.number().int().describe('how many cycles the log has'),
})
export type WasherCycleReading = z.infer<typeof WasherCycleReading>

export interface WasherRequest {
  readonly log: string
  readonly program: string | WasherProgram
  readonly map?: WasherLogMap | undefined
  readonly cycle?: number | undefined
}

/** Reads a washer's log and judges each of its cycles against a programme. */
export function readWasherCycles(
  request: WasherRequest,
): { kind: 'read'; cycles: readonly WasherCycleReading[] } | Unusable {
  const program = typeof request.program === 'string' ? washerProgramByKey(request.program)?.program : request.program
  if (program === undefined)
    return unusable(
      'program',
      `one of ${washerPrograms.map(({ key }) => key).join(', ')}, or a programme in full`,
      JSON.stringify(request.program),
    )
  const log = readWasherLog(request.log, request.map)
  if (isUnusable(log)) return log
  const spans = washerCycles(log)
  const { cycle } = request
  if (cycle !== undefined && (cycle < 1 || cycle > spans.length))
    return unusable('cycle', `a number from 1 to ${spans.length}, the cycles of this log`, String(cycle))
  const cycles = spans.flatMap((span, index) =>
    cycle === undefined || cycle === index + 1
      ? [{ ...readOne(log, span, program), cycle: index + 1, cycles: spans.length }]
      : [],
  )
  return { kind: 'read', cycles }
}

function readOne(log: WasherLog, span: Stretch, program: WasherProgram): Omit<WasherCycleReading, 'cycle' | 'cycles'> {
  const stages = namedStages(log, span)
  const seconds = log.seconds.subarray(span.from, span.to + 1)
  const drying = stages.find(({ name }) => isDrying(name)) ?? null
  const before = drying === null ? span : { from: span.from, to: Math.max(span.from, drying.from - 1) }
  const run = sureRun(seconds.subarray(0, before.to - span.from + 1), bandStates(log, before, program), gapLimit(log))
  const disinfection = run.span === null ? null : { from: span.from + run.span.from, to: span.from + run.span.to }
  // Without stage names the drying cannot be seen: the count ends where the band is left.
  const counted = drying !== null || disinfection === null ? before : { from: span.from, to: disinfection.to }
  const temperatures = log.channels.filter(({ role }) => role === 'temperature')
  // No stage names and never in the band: where drying begins cannot be told, so no A0 is certain.
  const endUnknown = stages.length === 0 && disinfection === null
  const heats = temperatures.map((channel) => heatOf(log, channel, counted))
  const whole = temperatures.map((channel) => heatOf(log, channel, span))
  const coldest = heats.reduce<ChannelHeat | null>(
    (least, heat) => (least === null || heat.a0Seconds < least.a0Seconds ? heat : least),
    null,
  )
  const rinse = lastRinse(log, { span, stages, end: counted.to })
  const range =
    disinfection === null ? [] : temperatures.map(({ values }) => rangeOf(values, disinfection.from, disinfection.to))
  const criteria = [
    a0Criterion(endUnknown ? heats.map((heat) => ({ ...heat, atLeast: 0 })) : heats, program),
    bandCriterion(run, program),
    ...(program.mostConductivityMicroSPerCm === undefined
      ? []
      : [rinseCriterion(rinse, program.mostConductivityMicroSPerCm)]),
  ]
  return {
    verdict: verdictOf(criteria),
    a0Seconds: endUnknown ? null : figure(coldest?.a0Seconds),
    coldestChannel: coldest?.name ?? null,
    channels: heats.map(({ name, a0Seconds }) => ({ name, a0Seconds: figure(a0Seconds) ?? 0 })),
    a0WithDryingSeconds: figure(whole.find(({ name }) => name === coldest?.name)?.a0Seconds),
    countedUntilSeconds: figure(at(log.seconds, counted.to)),
    holdingSeconds: run.span === null ? null : figure(run.atLeastSeconds),
    disinfection:
      disinfection === null
        ? null
        : { startSeconds: at(log.seconds, disinfection.from), endSeconds: at(log.seconds, disinfection.to) },
    minC: figure(range.length === 0 ? null : Math.min(...range.map(({ min }) => min))),
    maxC: figure(range.length === 0 ? null : Math.max(...range.map(({ max }) => max))),
    lastRinseMicroSPerCm: figure(rinse),
    stages: stages.map(({ name, from, to }) => ({
      name,
      startSeconds: at(log.seconds, from),
      endSeconds: at(log.seconds, to),
    })),
    criteria,
    findings: [
      ...log.findings,
      ...slow(log),
      ...cycleFindings(heats, { drying, stages, disinfection, endsIn: disinfection?.to === log.seconds.length - 1 }),
    ],
  }
}

/** The coldest that it can have been must reach the limit; what a channel lacks is not known. */
function a0Criterion(heats: readonly ChannelHeat[], program: WasherProgram): LogCriterion {
  const atLeast = Math.min(...heats.map((heat) => heat.atLeast))
  const atMost = Math.min(...heats.map((heat) => heat.atMost))
  const result = resultOf({ atLeast, atMost }, program.a0Seconds, 'least')
  const measured = figure(Math.min(...heats.map((heat) => heat.a0Seconds)))
  const compared = `${measured ?? 'no figure'} s, at least ${program.a0Seconds} s`
  const says =
    result === 'notEvaluable' ? `${compared}: missing readings or the steps of the logger leave it open` : compared
  return {
    id: 'a0',
    title: 'A0 of the coldest channel, drying not counted',
    result,
    measured,
    limit: program.a0Seconds,
    unit: 's',
    says,
    source: a0Limit,
  }
}

function bandCriterion(run: SureRun, program: WasherProgram): LogCriterion {
  const result = resultOf({ atLeast: run.atLeastSeconds, atMost: run.atMostSeconds }, program.holdSeconds, 'least')
  const measured = figure(run.atLeastSeconds)
  const says = `${measured ?? 0} s for certain from ${program.disinfectionC} to ${program.disinfectionC + program.bandK} °C, at least ${program.holdSeconds} s`
  return {
    id: 'band',
    title: 'Time of every channel in the band without a break',
    result,
    measured,
    limit: program.holdSeconds,
    unit: 's',
    says,
    source: bandRule,
  }
}

function rinseCriterion(rinse: number | null, limit: number): LogCriterion {
  const base = { id: 'rinse', title: 'Conductivity of the last rinse', limit, unit: 'µS/cm', source: rinseRule }
  if (rinse === null)
    return { ...base, result: 'notEvaluable', measured: null, says: 'the log has no conductivity of the last rinse' }
  const result = rinse <= limit ? ('met' as const) : ('notMet' as const)
  return { ...base, result, measured: figure(rinse), says: `${figure(rinse)} µS/cm, at most ${limit} µS/cm` }
}

/** The middle of the last readings of the stage that rinses last; without stages, of those before the count ends. */
function lastRinse(
  log: WasherLog,
  { span, stages, end }: { readonly span: Stretch; readonly stages: readonly WasherStage[]; readonly end: number },
): number | null {
  const channel = log.channels.find(({ role }) => role === 'conductivity')
  if (channel === undefined) return null
  const stage = stages.findLast(({ name }) => /rins|sp[uü]l|disinf|desinf/i.test(name) && !isDrying(name))
  const to = stage?.to ?? end
  const from = Math.max(stage?.from ?? span.from, to - 4)
  const middle = medianOf([...channel.values.subarray(from, to + 1)])
  return Number.isNaN(middle) ? null : middle
}

/** Between two readings the temperature is taken as straight; far apart, that is only what the log says. */
function slow({ intervalSeconds }: WasherLog): SteamFinding[] {
  if (!(intervalSeconds > 30)) return []
  const says = `One sample every ${Math.round(intervalSeconds)} s: what the temperature did in between is not seen.`
  return [finding('slow-sampling', 'caution', says)]
}

interface Seen {
  readonly drying: WasherStage | null
  readonly stages: readonly WasherStage[]
  readonly disinfection: Stretch | null
  readonly endsIn: boolean
}

function cycleFindings(heats: readonly ChannelHeat[], seen: Seen): SteamFinding[] {
  const found = heats
    .filter(({ missing }) => missing)
    .map(({ name }) =>
      finding(
        'missing-readings',
        'notEvaluable',
        `"${name}" has no readings for part of the cycle; that part counts nothing.`,
      ),
    )
  if (seen.disinfection === null)
    found.push(
      finding(
        'no-disinfection',
        'notEvaluable',
        'The log shows no time at which every sensor was in the band of the disinfection for certain.',
      ),
    )
  if (seen.stages.length === 0)
    found.push(
      finding(
        'no-stages',
        'caution',
        'The log does not name its stages: the count ends where the band is left, so that hot-air drying cannot count.',
      ),
    )
  else if (seen.drying === null)
    found.push(finding('no-drying', 'note', 'The log names no drying; everything up to its end counts.'))
  if (seen.endsIn) found.push(finding('truncated', 'notEvaluable', 'The log ends inside the disinfection.'))
  if (heats.length === 1)
    found.push(
      finding('one-sensor', 'note', 'With one sensor the log shows the chamber, not the coldest place of the load.'),
    )
  return found
}
