import type { Source } from '#units/source.ts'
import type { SaturationEquation } from '../physics/saturation-line.ts'
import type { Judged } from './cycle-facts.ts'
import { type SteamCycleSpan, splitCycles } from './cycles.ts'
import type { LethalityBase } from './lethality.ts'
import type { SteamLogMap } from './log-map.ts'
import type { SteamProgram } from './program.ts'
import { type NamedSteamProgram, steamProgramByKey, steamPrograms } from './programs.ts'
import { readCycle } from './read-cycle.ts'
import { readLog } from './read-log.ts'
import type { SteamCycleReading } from './reading.ts'
import { ruleSources, type SteamFigure, unitLimitSource } from './sources.ts'
import type { SteamLog } from './steam-log.ts'
import { isUnusable, type Unusable, unusable } from './unusable.ts'

/** What is asked of the reader: a log, a programme by key or in full, and how to read the columns. */
export interface SteamCyclesRequest {
  readonly log: string
  readonly program: string | SteamProgram
  readonly map?: SteamLogMap | undefined
  /** The machine's volume instead of the programme's. */
  readonly volumeLitres?: number | undefined
  /** One cycle of several, from 1. */
  readonly cycle?: number | undefined
  readonly fReferenceC?: number | undefined
  readonly zK?: number | undefined
  readonly equation?: SaturationEquation | undefined
  /** The unit's own list of programmes, when its policy has one. */
  readonly programs?: readonly NamedSteamProgram[] | undefined
}

export interface SteamCyclesRead {
  readonly kind: 'read'
  readonly cycles: readonly SteamCycleReading[]
}

/**
 * The base of F that is used when none is given: 121.0 °C and z = 10 K, as the European Pharmacopoeia and most hospital
 * practice have it. On the 121.1 base the standard 121 °C cycle of 15 min would show only 14.66 min.
 */
export const defaultLethality: LethalityBase = { fReferenceC: 121, zK: 10 }

/** Reads a log and judges each of its cycles against a programme. */
export function readSteamCycles(request: SteamCyclesRequest): SteamCyclesRead | Unusable {
  const prepared = prepareSteamLog(request)
  if (isUnusable(prepared)) return prepared
  const { log, spans, judged } = prepared
  const { fReferenceC = defaultLethality.fReferenceC, zK = defaultLethality.zK, cycle } = request
  if (cycle !== undefined && (cycle < 1 || cycle > spans.length))
    return unusable('cycle', `a number from 1 to ${spans.length}, the cycles of this log`, String(cycle))
  const readings = spans.flatMap((span, index) =>
    cycle === undefined || cycle === index + 1
      ? [{ ...readCycle(log, span, judged, { fReferenceC, zK }), cycle: index + 1, cycles: spans.length }]
      : [],
  )
  return { kind: 'read', cycles: readings }
}

export interface PreparedSteamLog {
  readonly log: SteamLog
  readonly spans: readonly SteamCycleSpan[]
  readonly judged: Judged
}

/** The log as channels and cycles, with the programme it is to be judged by; the chart starts from it too. */
export function prepareSteamLog(request: SteamCyclesRequest): PreparedSteamLog | Unusable {
  const judged = judgedBy(request)
  if (isUnusable(judged)) return judged
  const log = readLog(request.log, request.map, judged.equation)
  if (isUnusable(log)) return log
  return { log, spans: splitCycles(log, judged.program.sterilisationC), judged }
}

function judgedBy({
  program,
  programs = steamPrograms,
  volumeLitres,
  equation = 'if97',
}: SteamCyclesRequest): Judged | Unusable {
  const named = typeof program === 'string' ? steamProgramByKey(program, programs) : undefined
  const asked = typeof program === 'string' ? named?.program : program
  if (asked === undefined)
    return unusable(
      'program',
      `one of ${programs.map(({ key }) => key).join(', ')}, or a programme in full`,
      JSON.stringify(program),
    )
  return {
    program: volumeLitres === undefined ? asked : { ...asked, chamberLitres: volumeLitres },
    sourceOf: (figure) => sourceOf(figure, asked, named),
    equation,
  }
}

/** Figures that every programme shares, and that a unit's own programme may change. */
const usual = { band: 3, satBand: 3, spread: 2 } as const

function sourceOf(figure: SteamFigure, program: SteamProgram, named: NamedSteamProgram | undefined): Source {
  const own = named?.sources[figure]
  if (own !== undefined) return own
  switch (figure) {
    case 'hold':
      return named === undefined ? unitLimitSource : ruleSources.hold
    case 'band':
    case 'satBand':
      return program.bandK === usual[figure] ? ruleSources[figure] : unitLimitSource
    case 'spread':
      return program.maxDifferenceK === usual.spread ? ruleSources.spread : unitLimitSource
    case 'equilibration':
    case 'topFirst':
    case 'topAfter':
    case 'pulses':
    case 'drying':
      return ruleSources[figure]
  }
}
