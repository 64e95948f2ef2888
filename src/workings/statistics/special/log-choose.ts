import { halfLogTwoPi, stirlingError } from './log-gamma.ts'

/**
 * Logarithm of the number of ways to choose k of n; real 0 <= k <= n, by the gamma function. Minus infinity outside.
 *
 * Written with the entropy of k/n instead of three factorials, so that nothing large is subtracted.
 * @example logChoose(150, 5) // ln 591600030
 */
export function logChoose(n: number, k: number): number {
  if (k < 0 || k > n) return Number.NEGATIVE_INFINITY
  if (k === 0 || k === n) return 0
  const rest = n - k
  const entropy = -k * Math.log(k / n) - rest * Math.log1p(-k / n)
  const spread = 0.5 * (Math.log(n / k) - Math.log(rest)) - halfLogTwoPi
  return entropy + spread + stirlingError(n) - stirlingError(k) - stirlingError(rest)
}

/** Logarithm of the beta function of a, b > 0. */
export function logBeta(a: number, b: number): number {
  return Math.log((a + b) / a) - Math.log(b) - logChoose(a + b, Math.min(a, b))
}
