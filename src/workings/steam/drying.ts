import { at, rangeOf } from './series.ts'
import type { SteamLog } from './steam-log.ts'

/** Half an atmosphere: below it the vacuum dries. A choice made here; no standard gives one. */
export const dryingBelowKPa = 50

export interface Drying {
  readonly from: number
  readonly to: number
  readonly seconds: number
  readonly depthKPa: number
  /** False when the log ends before the chamber was filled again. */
  readonly ended: boolean
}

/** Drying under vacuum after the plateau, from first below half an atmosphere to the last time; null when there is none. */
export function findDrying(log: SteamLog, after: number, to: number): Drying | null {
  if (log.pressure === null) return null
  const { values } = log.pressure
  let first = -1
  let last = -1
  for (let index = after; index <= to; index += 1) {
    if (!(at(values, index) < dryingBelowKPa)) continue
    if (first < 0) first = index
    last = index
  }
  if (first < 0) return null
  return {
    from: first,
    to: last,
    seconds: at(log.seconds, last) - at(log.seconds, first),
    depthKPa: rangeOf(values, first, last).min,
    ended: last < to,
  }
}
