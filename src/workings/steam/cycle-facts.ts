import type { Source } from '#units/source.ts'
import type { SaturationEquation } from '../physics/saturation-line.ts'
import type { CycleFacts } from './criterion.ts'
import type { SteamCycleSpan } from './cycles.ts'
import { doubtOf } from './doubt.ts'
import { findDrying } from './drying.ts'
import { findEquilibration } from './equilibration.ts'
import { type Believed, findHolding, type Holding } from './holding.ts'
import type { Span } from './hot-regions.ts'
import { findPulses } from './pulses.ts'
import type { SteamProgram } from './program.ts'
import { type SensorFault, sensorFaults } from './sensor-faults.ts'
import { at } from './series.ts'
import type { SteamFigure } from './sources.ts'
import { type Channel, judgedTemperatures, type SteamLog } from './steam-log.ts'
import { longestGapSeconds } from './trouble.ts'

export interface Judged {
  readonly program: SteamProgram
  readonly sourceOf: (figure: SteamFigure) => Source
  readonly equation: SaturationEquation
}

/** Gathers what is known of one cycle, with the sensor faults that were found around its hot part. */
export function factsOf(
  log: SteamLog,
  cycle: SteamCycleSpan,
  judged: Judged,
): { facts: CycleFacts; faults: SensorFault[] } {
  const { program } = judged
  const faults = sensorFaults(log, cycle)
  const believed = (channel: Channel): Believed => ({ channel, doubt: doubtOf(channel, cycle, program.sterilisationC) })
  const temperatures = believedTemperatures(log, cycle, faults, program).map(believed)
  const holding = findHolding(log, cycle, temperatures, program.sterilisationC)
  const plateau = plateauSpan(holding)
  const isBad = (channel: Channel) =>
    faults.some((fault) => fault.channel === channel && touches(fault, plateau ?? cycle.hot))
  const believedOrNull = (channel: Channel | null) => (channel === null || isBad(channel) ? null : believed(channel))
  const badTemperatures = judgedTemperatures(log)
    .filter((channel) => !temperatures.some((one) => one.channel === channel))
    .map((channel) => saysFault(faults, channel))
  const endsInside = endsInsideHolding(log, cycle, temperatures, holding, program.sterilisationC)
  const facts: CycleFacts = {
    log,
    cycle,
    ...judged,
    temperatures,
    pressure: believedOrNull(log.pressure),
    above: believedOrNull(log.above),
    holding,
    equilibration: findEquilibration(log, cycle, temperatures, program.sterilisationC),
    pulses:
      cycle.hot === null ? [] : findPulses(log, cycle, holding.plateauFrom ?? holding.window?.from ?? cycle.hot.from),
    drying: holding.window === null ? null : findDrying(log, holding.window.to, cycle.to),
    badTemperatures,
    endsInside,
    obstacles: [
      ...(cycle.hot === null ? ['the log shows no sterilising plateau'] : []),
      ...badTemperatures,
      ...(endsInside ? ['the log ends inside the holding time or before it'] : []),
      ...(holding.window?.from === 0 ? ['the log begins inside the holding time'] : []),
      ...(holding.window !== null && hasGap(log, holding.window)
        ? [`samples are missing for more than ${longestGapSeconds} s inside the holding time`]
        : []),
    ],
    equationName: judged.equation === 'if97' ? 'IAPWS-IF97' : 'three-constant equation',
  }
  return { facts, faults }
}

/** From the reference reaching the temperature to the end of the holding time. */
export function plateauSpan({ plateauFrom, window }: Holding): Span | null {
  if (window === null) return null
  return { from: plateauFrom === null ? window.from : Math.min(plateauFrom, window.from), to: window.to }
}

/** A channel with a fault elsewhere is still believed when the fault does not touch the plateau that the others show. */
function believedTemperatures(
  log: SteamLog,
  cycle: SteamCycleSpan,
  faults: readonly SensorFault[],
  program: SteamProgram,
): Channel[] {
  const all = judgedTemperatures(log)
  const clean = all.filter((channel) => !faults.some((fault) => fault.channel === channel))
  const shown = findHolding(
    log,
    cycle,
    clean.map((channel) => ({ channel, doubt: { step: 0, wide: 0 } })),
    program.sterilisationC,
  )
  const plateau = clean.length === 0 ? cycle.hot : (plateauSpan(shown) ?? cycle.hot)
  return all.filter((channel) => !faults.some((fault) => fault.channel === channel && touches(fault, plateau)))
}

function touches(fault: Span, span: Span | null): boolean {
  return span === null || (fault.from < span.to && fault.to > span.from)
}

function saysFault(faults: readonly SensorFault[], channel: Channel): string {
  return `"${channel.name}" is ${faults.find((fault) => fault.channel === channel)?.kind ?? 'missing'}`
}

function hasGap({ seconds }: SteamLog, { from, to }: Span): boolean {
  for (let index = from + 1; index <= to; index += 1)
    if (at(seconds, index) - at(seconds, index - 1) > longestGapSeconds) return true
  return false
}

/** True when the log stops while the holding time runs, or is still on its way to it. */
function endsInsideHolding(
  log: SteamLog,
  cycle: SteamCycleSpan,
  temperatures: readonly Believed[],
  { window }: Holding,
  sterilisationC: number,
): boolean {
  const last = log.seconds.length - 1
  if (cycle.to !== last || cycle.hot === null) return false
  let end = last
  while (end > cycle.from && temperatures.every(({ channel }) => Number.isNaN(at(channel.values, end)))) end -= 1
  if (window !== null && window.to >= end) return true
  const stillHot = temperatures.every(({ channel, doubt }) => !(at(channel.values, end) < sterilisationC - doubt.wide))
  const rising =
    window === null &&
    cycle.hot.to === last &&
    at(cycle.chamber, last) > at(cycle.chamber, Math.max(cycle.from, last - 30)) - 0.5
  return rising || (stillHot && temperatures.length > 0)
}
