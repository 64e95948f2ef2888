import type { SteamCycleSpan } from './cycles.ts'
import type { Doubt } from './doubt.ts'
import { edgeReach } from './edge-reach.ts'
import type { Span } from './hot-regions.ts'
import { type Floor, firstAbove, lengthOf, longestRun, overlap, runsAbove } from './runs.ts'
import { at } from './series.ts'
import type { Channel, SteamLog } from './steam-log.ts'

/** A channel that can be believed in the plateau, with its doubt. */
export interface Believed {
  readonly channel: Channel
  readonly doubt: Doubt
}

/** The holding time of a cycle as logged, and what it is at least and at the most when the readings are doubted. */
export interface Holding {
  /** First sample in which the reference is at the sterilisation temperature; null when it never is. */
  readonly plateauFrom: number | null
  /** Samples of the holding time: reference and all loads at or above the temperature. */
  readonly window: Span | null
  readonly atLeastSeconds: number
  readonly atMostSeconds: number
  /** Other runs at temperature that a dip cut off, longest first. */
  readonly otherRuns: readonly Span[]
  /** Samples left off the end or the start since saturation was only leaving or arriving there. */
  readonly trimmed: { readonly start: number; readonly end: number }
}

/** Sensors follow steam late by seconds; only so long may saturation lag at an end of the holding time. */
const longestLagSeconds = 10

/** Finds the holding time of a cycle from the temperatures that can be believed. */
export function findHolding(
  log: SteamLog,
  cycle: SteamCycleSpan,
  temperatures: readonly Believed[],
  sterilisationC: number,
): Holding {
  const floors = (shift: (doubt: Doubt) => number): Floor[] =>
    temperatures.map(({ channel, doubt }) => ({
      values: channel.values,
      floorC: sterilisationC + shift(doubt) - 1e-6,
      stepK: doubt.step,
    }))
  const logged = floors(() => 0)
  const runs = runsAbove(logged, cycle)
  const longest = longestRun(log.seconds, runs)
  const { window, trimmed } = trimLag(log, longest, sterilisationC)
  const strict = runsAbove(
    floors((doubt) => doubt.step),
    cycle,
  ).flatMap((run) => (window && overlap(run, window)) ?? [])
  const wideFloors = floors((doubt) => -doubt.wide)
  const wide = runsAbove(wideFloors, cycle)
  const reference = logged.filter((_, index) => temperatures[index]?.channel.role === 'reference')
  const first = reference.length === 0 ? -1 : firstAbove(reference, cycle.hot ?? cycle)
  return {
    plateauFrom: first < 0 ? null : first,
    window,
    atLeastSeconds: lengthOf(log.seconds, longestRun(log.seconds, strict)),
    atMostSeconds: Math.max(
      0,
      ...wide.map((run) => lengthOf(log.seconds, run) + edgeReach(log.seconds, wideFloors, run, cycle)),
    ),
    otherRuns: runs
      .filter((run) => run !== longest)
      .sort((a, b) => lengthOf(log.seconds, b) - lengthOf(log.seconds, a)),
    trimmed,
  }
}

/**
 * Exhaust shows in the pressure before it shows in a sensor, and steam arrives the same way. A few seconds at either
 * end in which saturation is only leaving or arriving are not counted as holding time, provided that saturation is in
 * place over all the rest.
 */
function trimLag(log: SteamLog, run: Span | null, sterilisationC: number): Pick<Holding, 'window' | 'trimmed'> {
  const none = { start: 0, end: 0 }
  if (run === null) return { window: null, trimmed: none }
  const low = (index: number) => at(log.saturationC, index) < sterilisationC - 1e-6
  let { from, to } = run
  if (low(from)) while (from < run.to && low(from)) from += 1
  if (low(to)) while (to > run.from && low(to)) to -= 1
  const start = at(log.seconds, from) - at(log.seconds, run.from)
  const end = at(log.seconds, run.to) - at(log.seconds, to)
  const inside = log.saturationC.subarray(from, to + 1).every((saturation) => !(saturation < sterilisationC - 1e-6))
  if (!inside || from >= to || start > longestLagSeconds || end > longestLagSeconds)
    return { window: run, trimmed: none }
  return { window: { from, to }, trimmed: { start, end } }
}
