import type { SteamCycleSpan } from './cycles.ts'
import { isIdlePressure } from './cycles.ts'
import { at } from './series.ts'
import type { SteamLog } from './steam-log.ts'

/** One air-removal pulse: the pressure it was drawn down to and what followed, kPa absolute. */
export interface Pulse {
  readonly lowKPa: number
  readonly highKPa: number
  readonly lowAt: number
  readonly highAt: number
}

/** A turn of the pressure counts only beyond this swing. */
const leastSwingKPa = 15
const evacuatedKPa = 80
/** An open chamber for this long ends one air removal; what was before it (a leak test) belongs to another. */
const longestRestSeconds = 120

/** Air-removal pulses before the plateau; the last one ends at the plateau itself. */
export function findPulses(log: SteamLog, cycle: SteamCycleSpan, before: number): Pulse[] {
  if (log.pressure === null) return []
  const swing = Math.max(leastSwingKPa, 3 * log.pressure.resolution)
  const turns = turnsOf(log.pressure.values, cycle.from, before, swing)
  const pulses: Pulse[] = []
  for (const [place, turn] of turns.entries()) {
    if (turn.kind !== 'low') continue
    const next = turns[place + 1]
    const highAt = next?.index ?? before
    pulses.push({
      lowKPa: at(log.pressure.values, turn.index),
      highKPa: at(log.pressure.values, highAt),
      lowAt: turn.index,
      highAt,
    })
  }
  return lastSeries(log, pulses)
}

/** Air left by a well-mixed dilution: the product of low over high. A comparison between cycles, not a proof. */
export function airFractionAfter(pulses: readonly Pulse[]): number | null {
  if (pulses.length === 0) return null
  return pulses.reduce((left, { lowKPa, highKPa }) => left * Math.min(1, Math.max(0, lowKPa) / highKPa), 1)
}

interface Turn {
  readonly kind: 'low' | 'high'
  readonly index: number
}

function turnsOf(values: Float64Array, from: number, to: number, swing: number): Turn[] {
  const turns: Turn[] = []
  let low = from
  let high = from
  let seeking: Turn['kind'] | 'either' = 'either'
  for (let index = from; index <= to; index += 1) {
    const value = at(values, index)
    if (Number.isNaN(value)) continue
    if (!(value >= at(values, low))) low = index
    if (!(value <= at(values, high))) high = index
    if (seeking !== 'high' && value - at(values, low) >= swing) {
      // The very first low counts only when the pressure came down to it, or the log begins evacuated.
      if (seeking === 'low' || at(values, low) < evacuatedKPa) turns.push({ kind: 'low', index: low })
      seeking = 'high'
      high = index
    } else if (seeking !== 'low' && at(values, high) - value >= swing) {
      turns.push({ kind: 'high', index: high })
      seeking = 'low'
      low = index
    }
  }
  if (seeking === 'high') turns.push({ kind: 'high', index: high })
  return turns
}

function lastSeries(log: SteamLog, pulses: readonly Pulse[]): Pulse[] {
  let first = 0
  for (let place = 1; place < pulses.length; place += 1) {
    const earlier = pulses[place - 1]
    const later = pulses[place]
    if (earlier && later && restBetween(log, earlier.lowAt, later.lowAt) > longestRestSeconds) first = place
  }
  return pulses.slice(first)
}

function restBetween({ pressure, seconds }: SteamLog, from: number, to: number): number {
  if (pressure === null) return 0
  let longest = 0
  let start = -1
  for (let index = from; index <= to; index += 1) {
    if (!isIdlePressure(at(pressure.values, index))) start = -1
    else {
      if (start < 0) start = index
      longest = Math.max(longest, at(seconds, index) - at(seconds, start))
    }
  }
  return longest
}
