import { type ExposedCases, tailsAt } from './exposed-cases.ts'

/** Tables whose probability differs from the observed by less than this are taken as equally likely. */
const equallyLikely = Math.log1p(1e-7)

/** The exact p-values of an observed count, given the margins. */
export interface ExactP {
  /** Sum of the probabilities of all tables that are no likelier than the observed one. */
  readonly twoSided: number
  /** P(X >= x): exposure goes with infection. */
  readonly greater: number
  /** P(X <= x): exposure goes against it. */
  readonly less: number
  /** P(X > x) + P(X = x)/2. */
  readonly midGreater: number
  /** P(X < x) + P(X = x)/2. */
  readonly midLess: number
  /** Twice the smaller one-sided mid-P, at most 1. */
  readonly midTwoSided: number
  /** The two-sided p by likelihood less half the probability of the observed table. */
  readonly midLikelihood: number
}

export function exactP(cases: ExposedCases, x: number): ExactP {
  const { below, equal, above } = tailsAt(cases, x, 0)
  const observed = cases.logProbability[x - cases.low] ?? Number.NEGATIVE_INFINITY
  let twoSided = 0
  for (const log of cases.logProbability) if (log <= observed + equallyLikely) twoSided += Math.exp(log)
  const midGreater = above + equal / 2
  const midLess = below + equal / 2
  return {
    twoSided: Math.min(1, twoSided),
    greater: Math.min(1, equal + above),
    less: Math.min(1, equal + below),
    midGreater,
    midLess,
    midTwoSided: Math.min(1, 2 * Math.min(midGreater, midLess)),
    midLikelihood: Math.min(1, twoSided) - equal / 2,
  }
}
