/** What a log-normal fit says of durations: half of them are below the geometric mean. */
export interface LogNormalFit {
  readonly n: number
  /** Minutes. */
  readonly geometricMean: number
  /** Standard deviation of the logarithm; with the factor n − 1. */
  readonly logSd: number
}

/** Fits positive values by the mean and the standard deviation of their logarithms; null for fewer than two. */
export function fitLogNormal(values: readonly number[]): LogNormalFit | null {
  const logs = values.filter((value) => value > 0).map(Math.log)
  const n = logs.length
  if (n < 2) return null
  const mean = logs.reduce((sum, value) => sum + value, 0) / n
  const spread = logs.reduce((sum, value) => sum + (value - mean) ** 2, 0)
  return { n, geometricMean: Math.exp(mean), logSd: Math.sqrt(spread / (n - 1)) }
}
