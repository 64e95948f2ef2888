import { deviance } from './deviance.ts'
import { findRoot } from './find-root.ts'
import { halfLogTwoPi, logGamma, stirlingError } from './log-gamma.ts'

/** Both tails of a distribution at one point; the smaller one keeps its relative precision. */
export interface Tails {
  readonly lower: number
  readonly upper: number
}

/** Guards the continued fraction against a division by zero (Lentz). */
const tiny = 1e-300

/** x^a e^-x / Γ(a+1): the Poisson probability of a at mean x, for real a >= 0. */
export function poissonTerm(a: number, x: number): number {
  if (a === 0) return Math.exp(-x)
  if (x === 0) return 0
  return Math.exp(-stirlingError(a) - deviance(a, x) - 0.5 * Math.log(a) - halfLogTwoPi)
}

/**
 * The regularised incomplete gamma function of shape a > 0 at x >= 0: P below, Q above.
 *
 * Series below the shape, continued fraction above it (NIST DLMF 8.11.4 and 8.9.2); the leading term is a saddle-point
 * form that keeps its digits at any shape. Relative error of the smaller tail about 1e-13 up to shape 1e5.
 */
export function gammaTails(a: number, x: number): Tails {
  if (x <= 0) return { lower: 0, upper: 1 }
  if (x === Number.POSITIVE_INFINITY) return { lower: 1, upper: 0 }
  if (x < a + 1) {
    const lower = Math.min(1, poissonTerm(a, x) * seriesBelow(a, x))
    return { lower, upper: 1 - lower }
  }
  const upper = Math.min(1, poissonTerm(a, x) * a * fractionAbove(a, x))
  return { lower: 1 - upper, upper }
}

function seriesBelow(a: number, x: number): number {
  let term = 1
  let sum = 1
  for (let n = 1; term > sum * 1e-17; n += 1) {
    term *= x / (a + n)
    sum += term
  }
  return sum
}

function fractionAbove(a: number, x: number): number {
  let b = x + 1 - a
  let c = 1 / tiny
  let d = 1 / b
  let value = d
  for (let n = 1; ; n += 1) {
    const an = -n * (n - a)
    b += 2
    d = an * d + b
    if (Math.abs(d) < tiny) d = tiny
    c = b + an / c
    if (Math.abs(c) < tiny) c = tiny
    d = 1 / d
    const change = d * c
    value *= change
    if (Math.abs(change - 1) <= Number.EPSILON) return value
  }
}

/** The x below which a gamma variable of that shape lies with probability p. 0 where it is below the smallest number. */
export function gammaQuantile(p: number, shape: number): number {
  requireProbability(p)
  if (p === 0) return 0
  if (p === 1) return Number.POSITIVE_INFINITY
  if (p > 0.5) return solve((x) => Math.log(1 - p) - Math.log(gammaTails(shape, x).upper), shape)
  // Where x is so small that P = x^a/Γ(a+1) to the last digit, this is the answer, and no search is needed.
  const logX = (Math.log(p) + logGamma(shape + 1)) / shape
  if (logX < Math.log(1e-20)) return Math.exp(logX)
  return solve((x) => Math.log(gammaTails(shape, x).lower) - Math.log(p), shape)
}

/** The x above which a gamma variable of that shape lies with probability q; precise for tiny q. */
export function gammaUpperQuantile(q: number, shape: number): number {
  requireProbability(q)
  if (q >= 0.5) return gammaQuantile(1 - q, shape)
  if (q === 0) return Number.POSITIVE_INFINITY
  return solve((x) => Math.log(q) - Math.log(gammaTails(shape, x).upper), shape)
}

/** Searches on the logarithm of x, from the mean outwards. `rising` grows with x and crosses zero at the answer. */
function solve(rising: (x: number) => number, shape: number): number {
  const at = (u: number) => Math.max(-1e5, Math.min(1e5, rising(Math.exp(u))))
  const middle = Math.log(shape)
  let reach = Math.min(1, 4 / Math.sqrt(shape))
  while (at(middle - reach) > 0) reach *= 2
  while (at(middle + reach) < 0) reach *= 2
  return Math.exp(findRoot(at, middle - reach, middle + reach))
}

/** @throws RangeError unless 0 <= p <= 1. */
export function requireProbability(p: number): void {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`p: wanted number from 0 to 1, current value is ${p}`)
}
