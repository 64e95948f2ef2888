import { at } from '../steam/series.ts'

/** What is known of one moment: inside the window, outside it, or not to be told. */
export type Sureness = 'in' | 'out' | 'unknown'

export interface SureRun {
  /** Length for certain, s. */
  readonly atLeastSeconds: number
  /** Length at most: what is not known is taken as inside, s. */
  readonly atMostSeconds: number
  /** The run that is certain; null when there is none. */
  readonly span: { readonly from: number; readonly to: number } | null
}

/**
 * The longest stretch inside a window, as far as the log can tell. A gap in the samples is not known. A log that begins or
 * ends inside the window may hide more of it.
 */
export function sureRun(seconds: Float64Array, states: readonly Sureness[], longestGapSeconds: number): SureRun {
  let best: SureRun['span'] = null
  let sure = -1
  let maybe = -1
  let atLeastSeconds = 0
  let atMostSeconds = 0
  for (let index = 0; index < states.length; index += 1) {
    const state = states[index] ?? 'unknown'
    const gap = index > 0 && at(seconds, index) - at(seconds, index - 1) > longestGapSeconds
    if (state !== 'in' || gap) sure = -1
    if (state === 'in' && sure < 0) sure = index
    if (state === 'out') maybe = -1
    else if (maybe < 0) maybe = index
    if (sure >= 0) {
      const length = at(seconds, index) - at(seconds, sure)
      if (best === null || length > atLeastSeconds) best = { from: sure, to: index }
      atLeastSeconds = Math.max(atLeastSeconds, length)
    }
    if (maybe >= 0) {
      const open = maybe === 0 || index === states.length - 1
      const length = open && everIn(states, maybe, index) ? Number.POSITIVE_INFINITY : around(seconds, maybe, index)
      atMostSeconds = Math.max(atMostSeconds, length)
    }
  }
  return { atLeastSeconds, atMostSeconds, span: best }
}

/** A stretch may begin just after the sample before it and end just before the next one. */
function around(seconds: Float64Array, from: number, to: number): number {
  return at(seconds, Math.min(to + 1, seconds.length - 1)) - at(seconds, Math.max(from - 1, 0))
}

/** A log that is cut off where nothing was inside the window hides nothing of it. */
function everIn(states: readonly Sureness[], from: number, to: number): boolean {
  for (let index = from; index <= to; index += 1) if (states[index] === 'in') return true
  return false
}

/** One reading against a window, with half a step of the logger either way. */
export function inWindow(value: number, halfStep: number, low: number, high: number): Sureness {
  if (Number.isNaN(value)) return 'unknown'
  if (value + halfStep < low - tolerance || value - halfStep > high + tolerance) return 'out'
  return value - halfStep >= low - tolerance && value + halfStep <= high + tolerance ? 'in' : 'unknown'
}

const tolerance = 1e-6

/** All at once: outside when any is, inside when all are. */
export function together(states: readonly Sureness[]): Sureness {
  if (states.includes('out')) return 'out'
  return states.includes('unknown') ? 'unknown' : 'in'
}
