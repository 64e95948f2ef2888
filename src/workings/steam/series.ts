/*
 * Channels are typed arrays in which NaN stands for "no reading". Reading past the end is "no reading" too,
 * so that no loop has to ask twice.
 */

/** The reading at a place, or NaN. */
export function at(values: Float64Array, index: number): number {
  return values[index] ?? Number.NaN
}

/** Least and greatest reading in `[from, to]`; NaN when there is none. */
export function rangeOf(values: Float64Array, from: number, to: number): { min: number; max: number } {
  let min = Number.NaN
  let max = Number.NaN
  for (let index = from; index <= to; index += 1) {
    const value = at(values, index)
    if (Number.isNaN(value)) continue
    if (!(value >= min)) min = value
    if (!(value <= max)) max = value
  }
  return { min, max }
}

export function medianOf(values: readonly number[]): number {
  const sorted = values.filter((value) => !Number.isNaN(value)).sort((a, b) => a - b)
  const middle = sorted.length >> 1
  if (sorted.length === 0) return Number.NaN
  const upper = sorted[middle] ?? Number.NaN
  return sorted.length % 2 === 1 ? upper : (upper + (sorted[middle - 1] ?? Number.NaN)) / 2
}

/** Figures are shown to a thousandth; a figure that cannot be had is null. */
export function figure(value: number | null | undefined): number | null {
  return value === null || value === undefined || !Number.isFinite(value) ? null : Math.round(value * 1000) / 1000
}
