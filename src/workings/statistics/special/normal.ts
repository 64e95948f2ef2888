import { findRoot } from './find-root.ts'
import { gammaTails, requireProbability } from './incomplete-gamma.ts'

/** Probability that a standard normal variable lies above z; precise far into the tail. */
export function normalUpper(z: number): number {
  if (z < 0) return 1 - normalUpper(-z)
  return 0.5 * gammaTails(0.5, 0.5 * z * z).upper
}

/** Probability that a standard normal variable lies below z. */
export function normalLower(z: number): number {
  return normalUpper(-z)
}

/** Density of the standard normal distribution. */
export function normalDensity(z: number): number {
  return Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI)
}

/** The z below which a standard normal variable lies with probability p. */
export function normalQuantile(p: number): number {
  requireProbability(p)
  if (p > 0.5) return -normalQuantile(1 - p)
  if (p === 0) return Number.NEGATIVE_INFINITY
  if (p === 0.5) return 0
  // Beyond 38.5 the tail is below the smallest normal number.
  return -findRoot((z) => Math.log(p) - Math.max(-1e5, Math.log(normalUpper(z))), 0, 38.6)
}
