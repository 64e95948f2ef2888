import type { Span } from './hot-regions.ts'
import { at } from './series.ts'

/** Readings that must stay at or above a floor. */
export interface Floor {
  readonly values: Float64Array
  readonly floorC: number
  /** Half a step of the logger, K. */
  readonly stepK: number
}

/** Runs of samples in which no reading is below its floor; a missing reading neither makes nor breaks a run. */
export function runsAbove(floors: readonly Floor[], { from, to }: Span): Span[] {
  const found: Span[] = []
  let start = -1
  for (let index = from; index <= to + 1; index += 1) {
    const state = index > to ? 'below' : stateAt(floors, index)
    if (state === 'above' && start < 0) start = index
    if (state === 'below' && start >= 0) {
      found.push({ from: start, to: lastRead(floors, start, index - 1) })
      start = -1
    }
  }
  return found
}

/** First sample in which every floor is reached; -1 when there is none. */
export function firstAbove(floors: readonly Floor[], { from, to }: Span): number {
  for (let index = from; index <= to; index += 1) if (stateAt(floors, index) === 'above') return index
  return -1
}

export function lengthOf(seconds: Float64Array, span: Span | null): number {
  return span === null ? 0 : at(seconds, span.to) - at(seconds, span.from)
}

export function longestRun(seconds: Float64Array, runs: readonly Span[]): Span | null {
  return runs.reduce<Span | null>(
    (best, run) => (best === null || lengthOf(seconds, run) > lengthOf(seconds, best) ? run : best),
    null,
  )
}

/** The part two spans share, or null. */
export function overlap(a: Span, b: Span): Span | null {
  const from = Math.max(a.from, b.from)
  const to = Math.min(a.to, b.to)
  return from <= to ? { from, to } : null
}

type State = 'above' | 'below' | 'unknown'

function stateAt(floors: readonly Floor[], index: number): State {
  let state: State = 'unknown'
  for (const { values, floorC } of floors) {
    const value = at(values, index)
    if (value < floorC) return 'below'
    if (value >= floorC) state = 'above'
  }
  return state
}

/** A run does not end on readings that are missing. */
function lastRead(floors: readonly Floor[], start: number, end: number): number {
  let index = end
  while (index > start && stateAt(floors, index) === 'unknown') index -= 1
  return index
}
