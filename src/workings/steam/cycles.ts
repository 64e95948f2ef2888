import { type Span, chamberC, hotRegions } from './hot-regions.ts'
import { at } from './series.ts'
import type { SteamLog } from './steam-log.ts'

/** One cycle of a log: all of its samples, and those of its hot part (null when it has none). */
export interface SteamCycleSpan extends Span {
  readonly hot: Span | null
  readonly chamber: Float64Array
}

const idle = { low: 80, high: 112 } as const

/** Splits a log into cycles, in the middle of the longest idle time between two plateaus. */
export function splitCycles(log: SteamLog, sterilisationC: number): SteamCycleSpan[] {
  const chamber = chamberC(log)
  const last = log.seconds.length - 1
  const regions = hotRegions(log, chamber, sterilisationC)
  if (regions.length === 0) return [{ from: 0, to: last, hot: null, chamber }]
  const ends = regions.slice(1).map((next, index) => boundary(log, regions[index]?.to ?? 0, next.from))
  return regions.map((hot, index) => ({
    from: index === 0 ? 0 : (ends[index - 1] ?? 0) + 1,
    to: ends[index] ?? last,
    hot,
    chamber,
  }))
}

/** True when the pressure could be that of an open chamber. */
export function isIdlePressure(pressureKPa: number): boolean {
  return pressureKPa >= idle.low && pressureKPa <= idle.high
}

function boundary({ pressure, seconds }: SteamLog, from: number, to: number): number {
  let best = { from, to: from }
  let start = -1
  for (let index = from; index <= to; index += 1) {
    if (pressure === null || !isIdlePressure(at(pressure.values, index))) start = -1
    else {
      if (start < 0) start = index
      if (at(seconds, index) - at(seconds, start) > at(seconds, best.to) - at(seconds, best.from))
        best = { from: start, to: index }
    }
  }
  const quiet = at(seconds, best.to) - at(seconds, best.from) >= 60 ? best : { from, to }
  const middle = (at(seconds, quiet.from) + at(seconds, quiet.to)) / 2
  let index = quiet.from
  while (index < quiet.to && at(seconds, index + 1) <= middle) index += 1
  return index
}
