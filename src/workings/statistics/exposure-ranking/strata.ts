import { type ExposedCases, type TwoByTwo, exposedCasesOf, exposedCasesOfStrata } from '../exact/exposed-cases.ts'
import type { Column } from './columns.ts'
import type { RankingCase } from './ranking-input.ts'

/** The strata of a line list: to which each case belongs, and how many of each are infected. */
export interface Strata {
  readonly of: Int32Array
  readonly infected: readonly number[]
  readonly cases: readonly number[]
}

/** Month and procedure, so that neither a season nor a surgeon's case mix can pass for a cause. */
function stratumOf({ stratum, date, procedure }: RankingCase): string {
  return stratum ?? `${date.slice(0, 7)} ${procedure ?? ''}`
}

export function strataOf(cases: readonly RankingCase[]): Strata {
  const numbers = new Map(
    Array.from(new Set(cases.map(stratumOf)))
      .sort()
      .map((name, index) => [name, index] as const),
  )
  const of = Int32Array.from(cases, (one) => numbers.get(stratumOf(one)) ?? 0)
  const infected = Array.from({ length: numbers.size }, () => 0)
  const counts = Array.from({ length: numbers.size }, () => 0)
  for (const [place, one] of cases.entries()) {
    const stratum = of[place] ?? 0
    counts[stratum] = (counts[stratum] ?? 0) + 1
    if (one.infected) infected[stratum] = (infected[stratum] ?? 0) + 1
  }
  return { of, infected, cases: counts }
}

/** Strata in which both infection and this exposure vary; no other says anything about it. */
export function tellingStrata(column: Column, { of, infected, cases }: Strata): number {
  const exposed = exposedIn(column, of, cases.length)
  return exposed.filter((count, stratum) => {
    const all = cases[stratum] ?? 0
    const sick = infected[stratum] ?? 0
    return count > 0 && count < all && sick > 0 && sick < all
  }).length
}

/** Distribution of the exposed cases when infections are shuffled within strata. */
export function stratifiedDistribution(column: Column, { of, infected, cases }: Strata): ExposedCases {
  const exposed = exposedIn(column, of, cases.length)
  const parts = exposed.flatMap((count, stratum) => {
    const sick = infected[stratum] ?? 0
    return count === 0 || sick === 0 ? [] : [exposedCasesOf(sick, (cases[stratum] ?? 0) - sick, count)]
  })
  return exposedCasesOfStrata(parts)
}

function exposedIn(column: Column, of: Int32Array, count: number): number[] {
  const exposed = Array.from({ length: count }, () => 0)
  for (const place of column.places) {
    const stratum = of[place] ?? 0
    exposed[stratum] = (exposed[stratum] ?? 0) + 1
  }
  return exposed
}

/**
 * The two-by-two tables of the strata that tell: exposed infected, exposed others, unexposed infected, unexposed
 * others. The conditional odds ratio and its p rest on these alone.
 */
export function tellingTables(
  column: Column,
  infectedOf: Uint8Array,
  { of, infected, cases }: Strata,
): [number, number, number, number][] {
  const exposed = exposedIn(column, of, cases.length)
  const sickExposed = Array.from({ length: cases.length }, () => 0)
  for (const place of column.places) {
    const stratum = of[place] ?? 0
    sickExposed[stratum] = (sickExposed[stratum] ?? 0) + (infectedOf[place] ?? 0)
  }
  return exposed.flatMap((count, stratum): [number, number, number, number][] => {
    const all = cases[stratum] ?? 0
    const sick = infected[stratum] ?? 0
    const a = sickExposed[stratum] ?? 0
    if (count === 0 || count === all || sick === 0 || sick === all) return []
    return [[a, count - a, sick - a, all - count - (sick - a)]]
  })
}

/** P(X >= x) of every count from 0, to be looked up. */
export function upperTable({ low, logProbability }: ExposedCases): Float64Array {
  const table = new Float64Array(low + logProbability.length).fill(1)
  let sum = 0
  for (let index = logProbability.length - 1; index > 0; index -= 1) {
    sum += Math.exp(logProbability[index] ?? Number.NEGATIVE_INFINITY)
    table[low + index] = Math.min(1, sum)
  }
  return table
}

export function tableOf(column: Column, infected: Uint8Array): TwoByTwo {
  const total = infected.reduce((sum, one) => sum + one, 0)
  const casesExposed = column.places.reduce((sum, place) => sum + (infected[place] ?? 0), 0)
  const exposed = column.places.length
  return {
    casesExposed,
    casesUnexposed: total - casesExposed,
    nonCasesExposed: exposed - casesExposed,
    nonCasesUnexposed: infected.length - total - (exposed - casesExposed),
  }
}
