import { normalDensity, normalLower } from '../special/normal.ts'
import { gaussLegendre } from './gauss-legendre.ts'
import { solveLinear } from './solve-linear.ts'

/**
 * Average run length of a one-sided CUSUM of normal values with unit spread, S = max(0, S + x - k), signal above h, at a
 * mean of `shift`, from S = `start`. Integral equation by Gauss-Legendre nodes with the atom at 0 kept apart.
 */
export function oneSidedNormalRunLength(k: number, h: number, shift: number, start = 0): number {
  const nodes = gaussLegendre(Math.max(40, Math.ceil(h * 12)), 0, h)
  const from = [0, ...nodes.map(({ node }) => node)]
  const kernel = (s: number) =>
    Float64Array.from([
      normalLower(k - shift - s),
      ...nodes.map(({ node, weight }) => weight * normalDensity(node + k - shift - s)),
    ])
  const rows = from.map((s, index) => kernel(s).map((value, column) => (index === column ? 1 : 0) - value))
  const lengths = solveLinear(
    rows,
    from.map(() => 1),
  )
  if (start === 0) return lengths[0] ?? Number.NaN
  return 1 + kernel(start).reduce((sum, value, index) => sum + value * (lengths[index] ?? 0), 0)
}

/** Both sides together (Lucas and Crosier 1982 with a head start on both). */
export function twoSidedNormalRunLength(k: number, h: number, shift: number, start = 0): number {
  const upper = oneSidedNormalRunLength(k, h, shift)
  const lower = oneSidedNormalRunLength(k, h, -shift)
  if (start === 0) return 1 / (1 / upper + 1 / lower)
  const upperFrom = oneSidedNormalRunLength(k, h, shift, start)
  const lowerFrom = oneSidedNormalRunLength(k, h, -shift, start)
  return (upperFrom * lower + lowerFrom * upper - upper * lower) / (upper + lower)
}

/** Average run length of a two-sided EWMA of normal values with fixed limits, from z = 0, at a mean of `shift`. */
export function ewmaNormalRunLength(lambda: number, L: number, shift: number): number {
  const limit = L * Math.sqrt(lambda / (2 - lambda))
  const count = Math.min(400, Math.max(51, Math.ceil((12 * limit) / lambda)))
  const nodes = gaussLegendre(count % 2 === 0 ? count + 1 : count, -limit, limit)
  const kernel = (s: number) =>
    Float64Array.from(
      nodes.map(({ node, weight }) => (weight / lambda) * normalDensity((node - (1 - lambda) * s) / lambda - shift)),
    )
  const rows = nodes.map(({ node }, index) => kernel(node).map((value, column) => (index === column ? 1 : 0) - value))
  const lengths = solveLinear(
    rows,
    nodes.map(() => 1),
  )
  return 1 + kernel(0).reduce((sum, value, index) => sum + value * (lengths[index] ?? 0), 0)
}
