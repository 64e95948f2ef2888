import { findRoot } from '../special/find-root.ts'
import { bernoulliWeights } from './bernoulli-run-length.ts'
import type { LatticeSteps } from './lattice-run-length.ts'

/** An infection adds m - 1, a clean procedure takes 1. */
export function latticeSteps(rate: number, m: number): LatticeSteps {
  return {
    least: -1,
    probabilities: Array.from({ length: m + 1 }, (_, index) => (index === 0 ? 1 - rate : index === m ? rate : 0)),
  }
}

/**
 * The rate for which 1/m is the slope r1/r2 of the likelihood ratio: the rate that the whole-number chart is best at.
 * Needs p0 < 1/m.
 */
export function latticeAlternative(p0: number, m: number): number {
  const slope = (p1: number) => {
    const [infected, notInfected] = bernoulliWeights(p0, p1)
    return -notInfected / (infected - notInfected)
  }
  return findRoot((p1) => slope(p1) - 1 / m, p0 * (1 + 1e-6), 1 - 1e-15)
}
