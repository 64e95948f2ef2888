import { gammaTails, poissonTerm } from './incomplete-gamma.ts'

/** P(X = x) for a Poisson count with that mean; x a whole number >= 0. */
export function poissonProbability(x: number, mean: number): number {
  return poissonTerm(x, mean)
}

/** P(X <= x). */
export function poissonAtMost(x: number, mean: number): number {
  return x < 0 ? 0 : gammaTails(x + 1, mean).upper
}

/** P(X >= x), precise where it is small. */
export function poissonAtLeast(x: number, mean: number): number {
  return x <= 0 ? 1 : gammaTails(x, mean).lower
}
