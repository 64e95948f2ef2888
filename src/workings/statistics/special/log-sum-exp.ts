/** ln Σ exp(value), without overflow or underflow on the way; minus infinity for an empty list. */
export function logSumExp(values: readonly number[]): number {
  let largest = Number.NEGATIVE_INFINITY
  for (const value of values) if (value > largest) largest = value
  if (!Number.isFinite(largest)) return largest
  let sum = 0
  for (const value of values) sum += Math.exp(value - largest)
  return largest + Math.log(sum)
}
