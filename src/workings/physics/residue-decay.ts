import { requireWithin } from './require-within.ts'

const secondsPerHour = 3600
const mmPerCm = 10

/** Content at `hours` of a residue that halves every `halfLifeHours`, in the unit of `start`. */
export function exponentialContent(start: number, halfLifeHours: number, hours: number): number {
  requireWithin('halfLifeHours', halfLifeHours, Number.MIN_VALUE, Number.MAX_VALUE)
  return start * 2 ** (-hours / halfLifeHours)
}

/**
 * Share of the residue left in a plane sheet open on both faces: (8/π²) Σ (2n+1)⁻² exp(-(2n+1)² π² D t/L²) (Crank).
 *
 * Below D t/L² = 0.02 the series converges slowly and the early form 1 - 4 √(D t/(π L²)) is used; there it is
 * exact to 1e-5.
 * @throws RangeError unless the thickness is positive.
 * @example sheetShareLeft(1, 1e-7, 12.37) // 0.01
 */
export function sheetShareLeft(thicknessMm: number, diffusionCm2PerS: number, hours: number): number {
  requireWithin('thicknessMm', thicknessMm, Number.MIN_VALUE, Number.MAX_VALUE)
  const fourier = (diffusionCm2PerS * hours * secondsPerHour) / (thicknessMm / mmPerCm) ** 2
  if (fourier < 0.02) return 1 - 4 * Math.sqrt(fourier / Math.PI)
  let sum = 0
  for (let n = 0; n < 12; n += 1) {
    const odd = 2 * n + 1
    sum += Math.exp(-(odd ** 2) * Math.PI ** 2 * fourier) / odd ** 2
  }
  return (8 / Math.PI ** 2) * sum
}

/**
 * First hour at which a falling content is at or below `limit`, by bisection to 1e-9 of the result; 0 when it is already
 * there, null when it is not there after `longestHours`.
 */
export function hoursToLimit(content: (hours: number) => number, limit: number, longestHours = 100_000): number | null {
  if (content(0) <= limit) return 0
  if (content(longestHours) > limit) return null
  let low = 0
  let high = longestHours
  while (high - low > 1e-9 * high) {
    const middle = (low + high) / 2
    if (content(middle) > limit) low = middle
    else high = middle
  }
  return high
}
