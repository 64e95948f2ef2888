import { betaTails, binomialTerm } from './incomplete-beta.ts'

/** P(X = x) of n independent trials with probability p each. */
export function binomialProbability(x: number, n: number, p: number): number {
  return x < 0 || x > n ? 0 : binomialTerm(x, n, p, 1 - p)
}

/** P(X <= x). */
export function binomialAtMost(x: number, n: number, p: number): number {
  if (x < 0) return 0
  return x >= n ? 1 : betaTails(x + 1, n - x, p).upper
}

/** P(X >= x), precise where it is small. */
export function binomialAtLeast(x: number, n: number, p: number): number {
  if (x <= 0) return 1
  return x > n ? 0 : betaTails(x, n - x + 1, p).lower
}
