/** The window whose likelihood ratio is highest, from its first to its last event. */
export interface BestWindow {
  readonly llr: number
  readonly start: number | null
  readonly end: number | null
  readonly count: number
}

/** Ratios that differ by less than this are the same ratio computed twice. */
export const sameRatio = 1e-9

/**
 * The best of all windows of at most `widest` that begin and end with an event: the maximum is always at one of these.
 * The earliest of equals is taken, so that the answer does not hang on the last digits.
 * @param events places in ascending order; a place may occur twice.
 * @param ratio likelihood ratio of so many events in a window from one place to another, both counted.
 */
export function bestWindow(
  events: ArrayLike<number>,
  widest: number,
  ratio: (count: number, start: number, end: number) => number,
): BestWindow {
  let best: BestWindow = { llr: 0, start: null, end: null, count: 0 }
  for (let first = 0; first < events.length; first += 1) {
    const start = events[first] ?? 0
    for (let last = first; last < events.length; last += 1) {
      const end = events[last] ?? 0
      if (end - start + 1 > widest) break
      const llr = ratio(last - first + 1, start, end)
      if (llr > best.llr + sameRatio) best = { llr, start, end, count: last - first + 1 }
    }
  }
  return best
}
