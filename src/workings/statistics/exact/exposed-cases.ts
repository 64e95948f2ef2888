import { logSumExp } from '../special/log-sum-exp.ts'

/**
 * How many of the exposed are cases when the margins are given: the logarithm of the probability of low, low + 1 …,
 * at an odds ratio of 1. Logarithms, because at an odds ratio of thousands the far tail is what counts.
 */
export interface ExposedCases {
  readonly low: number
  readonly logProbability: Float64Array
}

/** The four cells of a two-by-two table. */
export interface TwoByTwo {
  readonly casesExposed: number
  readonly casesUnexposed: number
  readonly nonCasesExposed: number
  readonly nonCasesUnexposed: number
}

/** The hypergeometric distribution, built from the ratios of neighbours, so that nothing large is subtracted. */
export function exposedCasesOf(cases: number, nonCases: number, exposed: number): ExposedCases {
  const low = Math.max(0, exposed - nonCases)
  const high = Math.min(cases, exposed)
  const logProbability = new Float64Array(high - low + 1)
  let sum = 0
  for (let x = low; x < high; x += 1) {
    const up = (cases - x) * (exposed - x)
    const down = (x + 1) * (nonCases - exposed + x + 1)
    sum += Math.log(up / down)
    logProbability[x - low + 1] = sum
  }
  return { low, logProbability: normalised(logProbability) }
}

/** The distribution of a table with these margins. */
export function exposedCasesOfTable(table: TwoByTwo): ExposedCases {
  const { casesExposed, casesUnexposed, nonCasesExposed, nonCasesUnexposed } = table
  return exposedCasesOf(
    casesExposed + casesUnexposed,
    nonCasesExposed + nonCasesUnexposed,
    casesExposed + nonCasesExposed,
  )
}

/** The distribution of the sum over independent strata. */
export function exposedCasesOfStrata(strata: readonly ExposedCases[]): ExposedCases {
  return strata.reduce(convolved, { low: 0, logProbability: new Float64Array(1) })
}

function convolved(one: ExposedCases, other: ExposedCases): ExposedCases {
  const a = one.logProbability
  const b = other.logProbability
  const out = new Float64Array(a.length + b.length - 1)
  for (let k = 0; k < out.length; k += 1) {
    const from = Math.max(0, k - b.length + 1)
    const to = Math.min(k, a.length - 1)
    let largest = Number.NEGATIVE_INFINITY
    for (let i = from; i <= to; i += 1) largest = Math.max(largest, at(a, i) + at(b, k - i))
    let sum = 0
    for (let i = from; i <= to; i += 1) sum += Math.exp(at(a, i) + at(b, k - i) - largest)
    out[k] = largest + Math.log(sum)
  }
  return { low: one.low + other.low, logProbability: out }
}

function normalised(logs: Float64Array): Float64Array {
  const total = logSumExp(Array.from(logs))
  return logs.map((log) => log - total)
}

/** What lies below, at and above x when the odds ratio is exp(logOdds). Each keeps its relative precision. */
export function tailsAt({ low, logProbability }: ExposedCases, x: number, logOdds: number) {
  const tilted = logProbability.map((log, index) => log + logOdds * index)
  const largest = tilted.reduce((most, log) => Math.max(most, log), Number.NEGATIVE_INFINITY)
  let below = 0
  let equal = 0
  let above = 0
  let moment = 0
  for (const [index, log] of tilted.entries()) {
    const weight = Math.exp(log - largest)
    moment += index * weight
    if (index + low < x) below += weight
    else if (index + low > x) above += weight
    else equal = weight
  }
  const total = below + equal + above
  return { below: below / total, equal: equal / total, above: above / total, mean: low + moment / total }
}

/** Lowest and highest count that the margins allow. */
export function reachOf({ low, logProbability }: ExposedCases): { readonly low: number; readonly high: number } {
  return { low, high: low + logProbability.length - 1 }
}

function at(values: Float64Array, index: number): number {
  return values[index] ?? Number.NEGATIVE_INFINITY
}
