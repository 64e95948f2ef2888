import { type SteamCycleSpan } from './cycles.ts'
import type { Span } from './hot-regions.ts'
import { noiseOf } from './noise.ts'
import { at, rangeOf } from './series.ts'
import { type Channel, channelsOf, type SteamLog } from './steam-log.ts'
import { longestGapSeconds } from './trouble.ts'

/** A stretch in which a channel cannot be believed. */
export interface SensorFault extends Span {
  readonly channel: Channel
  readonly kind: 'stuck' | 'dead' | 'missing'
}

const stuckSeconds = 60
/** Look this far to both sides of the hot part: a sensor can stick before it or let go after it. */
const aroundSeconds = 120
/** Others must move this much while a channel stands still; less can be a true difference inside the 2 K window. */
const movedK = 2
/** Free space above a pack may be superheated and goes its own way; only the exhaust contradicts it. */
const movedAboveK = 8
/** A working sensor this far from a hot chamber does not stand perfectly still. */
const deadK = 20
const lagSeconds = 30
const kilopascalsPerKelvin = 8.9

/** Channels that are dead, stuck or missing somewhere around the hot part of a cycle. */
export function sensorFaults(log: SteamLog, cycle: SteamCycleSpan): SensorFault[] {
  if (cycle.hot === null) return []
  const around = widened(log, cycle, cycle.hot)
  const hot = cycle.hot
  return channelsOf(log).flatMap((channel) => {
    if (isDead(log, channel, hot, cycle.chamber)) return [{ channel, kind: 'dead' as const, ...hot }]
    return [...missingRuns(log, channel, hot), ...stuckRuns(log, channel, around)]
  })
}

function widened({ seconds }: SteamLog, cycle: Span, hot: Span): Span {
  let { from, to } = hot
  while (from > cycle.from && at(seconds, hot.from) - at(seconds, from - 1) <= aroundSeconds) from -= 1
  while (to < cycle.to && at(seconds, to + 1) - at(seconds, hot.to) <= aroundSeconds) to += 1
  return { from, to }
}

/** Nothing at all over the hot part, or one and the same reading far from what the chamber has. */
function isDead(log: SteamLog, channel: Channel, hot: Span, chamber: Float64Array): boolean {
  const { min, max } = rangeOf(channel.values, hot.from, hot.to)
  if (Number.isNaN(min)) return true
  const readings = channel.role === 'pressure' ? log.saturationC : channel.values
  const first = rangeOf(readings, hot.from, hot.to).max
  const hottest = rangeOf(chamber, hot.from, hot.to).max
  const far = Number.isNaN(first) || Math.abs(first - hottest) > deadK
  return min === max && far && at(log.seconds, hot.to) - at(log.seconds, hot.from) >= stuckSeconds
}

function missingRuns({ seconds }: SteamLog, channel: Channel, hot: Span): SensorFault[] {
  const found: SensorFault[] = []
  let lastRead = hot.from
  for (let index = hot.from; index <= hot.to; index += 1) {
    const read = !Number.isNaN(at(channel.values, index))
    const ends = read || index === hot.to
    if (ends && index - lastRead > 1 && at(seconds, index) - at(seconds, lastRead) > longestGapSeconds)
      found.push({ channel, kind: 'missing', from: lastRead, to: index })
    if (read) lastRead = index
  }
  return found
}

function stuckRuns(log: SteamLog, channel: Channel, around: Span): SensorFault[] {
  const found: SensorFault[] = []
  let from = around.from
  for (let index = around.from + 1; index <= around.to + 1; index += 1) {
    if (index <= around.to && at(channel.values, index) === at(channel.values, from)) continue
    const run = { from, to: index - 1 }
    if (at(log.seconds, run.to) - at(log.seconds, run.from) >= stuckSeconds && isStuck(log, channel, run, around))
      found.push({ channel, kind: 'stuck', ...run })
    from = index
  }
  return found
}

/**
 * A flat plateau is flat in every healthy channel, and a coarse step hides small movement. So standing still is a
 * fault only when most other channels (two of three) move by more than the channel's step could hide, or when the channel is quieter
 * than its own noise elsewhere could ever leave it while others still flicker.
 */
function isStuck(log: SteamLog, channel: Channel, run: Span, around: Span): boolean {
  const others = channelsOf(log).filter((other) => other !== channel && other.role !== 'above')
  const inner = withoutEnds(log, run)
  const moves = others.map((other) => movement(log, other, inner)).filter((moved) => !Number.isNaN(moved))
  const step = channel.role === 'pressure' ? channel.resolution / kilopascalsPerKelvin : channel.resolution
  const moving = moves.filter((moved) => moved >= (channel.role === 'above' ? movedAboveK : movedK) + step).length
  const contradicted = moving > 0 && moving >= Math.ceil((2 * moves.length) / 3)
  return contradicted || isTooQuiet(log, channel, run, around, others)
}

/** A true standstill may begin or end while slower channels still follow; only movement inside it contradicts it. */
function withoutEnds({ seconds }: SteamLog, { from, to }: Span): Span {
  const margin = Math.min(lagSeconds, (at(seconds, to) - at(seconds, from)) / 4)
  let first = from
  let last = to
  while (first < last && at(seconds, first) < at(seconds, from) + margin) first += 1
  while (last > first && at(seconds, last) > at(seconds, to) - margin) last -= 1
  return { from: first, to: last }
}

/** How far a channel moves over a run beyond its own step and noise, in kelvin. */
function movement(log: SteamLog, channel: Channel, run: Span): number {
  const values = channel.role === 'pressure' ? log.saturationC : channel.values
  const scale = channel.role === 'pressure' ? kilopascalsPerKelvin : 1
  const { min, max } = rangeOf(values, run.from, run.to)
  const step = channel.resolution / scale
  return max - min - step - 5 * noiseOf(values, run.from, run.to, step)
}

function isTooQuiet(log: SteamLog, channel: Channel, run: Span, around: Span, others: readonly Channel[]): boolean {
  const step = Math.max(channel.resolution, 1e-3)
  const noise = Math.max(
    noiseOf(channel.values, around.from, run.from - 1, step),
    noiseOf(channel.values, run.to + 1, around.to, step),
  )
  if (noise < 0.5 * step || !others.some((other) => flickers(other, run))) return false
  const samples = run.to - run.from + 1
  return (
    samples * Math.log10(chanceOfSameStep(step / noise)) < -6 && at(log.seconds, run.to) > at(log.seconds, run.from)
  )
}

/** Chance, at the most, that one noisy reading falls into the same step as the one before. */
function chanceOfSameStep(stepInDeviations: number): number {
  const half = stepInDeviations / 2
  // Normal distribution within ±half, by the usual logistic-cubic approximation: good to 0.0003.
  return Math.max(1e-12, 2 / (1 + Math.exp(-1.5976 * half - 0.070566 * half ** 3)) - 1)
}

function flickers(channel: Channel, run: Span): boolean {
  let changes = 0
  for (let index = run.from + 1; index <= run.to; index += 1)
    if (at(channel.values, index) !== at(channel.values, index - 1)) changes += 1
  return changes > 0.3 * (run.to - run.from)
}
