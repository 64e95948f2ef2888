import { deviance } from './deviance.ts'
import { findRoot } from './find-root.ts'
import { type Tails, requireProbability } from './incomplete-gamma.ts'
import { logBeta } from './log-choose.ts'
import { halfLogTwoPi, stirlingError } from './log-gamma.ts'

/** Guards the continued fraction against a division by zero (Lentz). */
const tiny = 1e-300

/** Γ(n+1)/(Γ(k+1)Γ(n-k+1)) x^k y^(n-k) with y = 1 - x: the binomial probability, for real 0 <= k <= n (Loader 2000). */
export function binomialTerm(k: number, n: number, x: number, y: number): number {
  const rest = n - k
  if (k === 0) return n === 0 ? 1 : Math.exp(n * (y > 0.5 ? Math.log1p(-x) : Math.log(y)))
  if (rest === 0) return Math.exp(n * (x > 0.5 ? Math.log1p(-y) : Math.log(x)))
  if (x === 0 || y === 0) return 0
  const error = stirlingError(n) - stirlingError(k) - stirlingError(rest)
  const spread = 0.5 * (Math.log(n / k) - Math.log(rest)) - halfLogTwoPi
  return Math.exp(error + spread - deviance(k, n * x) - deviance(rest, n * y))
}

/**
 * The regularised incomplete beta function I_x(a, b), a and b > 0: below x, and above it. y = 1 - x may be handed in where x is close to 1.
 *
 * Continued fraction (NIST DLMF 8.17.22) on the side where it converges fast. Relative error of the smaller tail about
 * 1e-12 up to a, b = 1e5.
 */
export function betaTails(a: number, b: number, x: number, y: number = 1 - x): Tails {
  if (x <= 0) return { lower: 0, upper: 1 }
  if (y <= 0) return { lower: 1, upper: 0 }
  const lead = binomialTerm(a, a + b, x, y) / (a + b)
  if (x * (b + 1) < y * (a + 1)) {
    const lower = Math.min(1, lead * b * fraction(a, b, x))
    return { lower, upper: 1 - lower }
  }
  const upper = Math.min(1, lead * a * fraction(b, a, y))
  return { lower: 1 - upper, upper }
}

function fraction(a: number, b: number, x: number): number {
  let c = 1
  let d = guarded(1 - ((a + b) * x) / (a + 1))
  d = 1 / d
  let value = d
  for (let m = 1; ; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m))
    d = 1 / guarded(1 + even * d)
    c = guarded(1 + even / c)
    value *= d * c
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1))
    d = 1 / guarded(1 + odd * d)
    c = guarded(1 + odd / c)
    const change = d * c
    value *= change
    if (Math.abs(change - 1) <= Number.EPSILON) return value
  }
}

function guarded(value: number): number {
  return Math.abs(value) < tiny ? tiny : value
}

/** The x below which a Beta(a, b) variable lies with probability p. 0 where it is below the smallest number. */
export function betaQuantile(p: number, a: number, b: number): number {
  requireProbability(p)
  if (p === 0 || p === 1) return p
  if (p > 0.5) return solve((tails) => Math.log(1 - p) - Math.log(tails.upper), a, b)
  const logX = (Math.log(p) + Math.log(a) + logBeta(a, b)) / a
  // So near 0 the function is x^a/(a B(a,b)) to the last digit.
  if (logX < Math.log(1e-20 / Math.max(1, b))) return Math.exp(logX)
  return solve((tails) => Math.log(tails.lower) - Math.log(p), a, b)
}

/** The x above which a Beta(a, b) variable lies with probability q; precise for tiny q. */
export function betaUpperQuantile(q: number, a: number, b: number): number {
  requireProbability(q)
  if (q >= 0.5) return betaQuantile(1 - q, a, b)
  if (q === 0) return 1
  return solve((tails) => Math.log(q) - Math.log(tails.upper), a, b)
}

/** Searches on the log odds of x, from the mean outwards. `rising` grows with x and crosses zero at the answer. */
function solve(rising: (tails: Tails) => number, a: number, b: number): number {
  const at = (u: number) => {
    const value = rising(betaTails(a, b, 1 / (1 + Math.exp(-u)), 1 / (1 + Math.exp(u))))
    return Math.max(-1e5, Math.min(1e5, value))
  }
  const middle = Math.log(a / b)
  let reach = 0.1
  while (at(middle - reach) > 0 && middle - reach > -700) reach *= 2
  while (at(middle + reach) < 0 && middle + reach < 700) reach *= 2
  if (at(middle + reach) < 0) return 1
  return 1 / (1 + Math.exp(-findRoot(at, middle - reach, middle + reach)))
}
