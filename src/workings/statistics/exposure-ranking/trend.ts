import { shuffledWithin } from '../permute/shuffled-within.ts'
import { seededGenerator } from '../special/seeded-generator.ts'

/** What is needed of a case to see whether more of a thing goes with infection. */
export interface Dose {
  readonly amount: number
  readonly infected: boolean
  readonly stratum: number
}

export interface Trend {
  readonly cases: number
  readonly meanInfected: number
  readonly meanNotInfected: number
  /** Permutation p that the infected met more of it, (r + 1)/(R + 1). */
  readonly p: number
}

/** Trends are drawn with fewer shuffles than the ranking: they support it and do not decide it. */
export const trendPermutations = 1999

/**
 * Whether the infected met more than the others of their stratum: the sum of their amounts, compared with shuffles within strata.
 * Null with fewer than three different amounts or without both kinds of case.
 */
export function trendOf(doses: readonly Dose[], seed: number): Trend | null {
  const infected = doses.filter((dose) => dose.infected)
  const others = doses.filter((dose) => !dose.infected)
  if (infected.length === 0 || others.length === 0 || new Set(doses.map(({ amount }) => amount)).size < 3) return null
  // In a fixed order, so that the answer does not hang on the order of the cases.
  const sorted = doses.toSorted(
    (a, b) => a.stratum - b.stratum || a.amount - b.amount || Number(a.infected) - Number(b.infected),
  )
  const observed = sum(infected)
  const draw = shuffledWithin(
    sorted.map((dose) => Number(dose.infected)),
    sorted.map(({ stratum }) => stratum),
    seededGenerator(seed),
  )
  const slack = 1e-9 * Math.max(1, Math.abs(observed))
  let reached = 0
  for (let permutation = 0; permutation < trendPermutations; permutation += 1) {
    let drawn = 0
    for (const place of draw()) drawn += sorted[place]?.amount ?? 0
    if (drawn >= observed - slack) reached += 1
  }
  return {
    cases: doses.length,
    meanInfected: observed / infected.length,
    meanNotInfected: sum(others) / others.length,
    p: (reached + 1) / (trendPermutations + 1),
  }
}

function sum(doses: readonly Dose[]): number {
  return doses.reduce((total, { amount }) => total + amount, 0)
}
