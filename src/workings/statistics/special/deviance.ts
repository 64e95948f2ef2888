/** Within this relative distance the difference of the terms is taken from a series, where subtraction would lose digits. */
const near = 0.1

/**
 * x ln(x/m) + m - x: how far an observed x lies from its mean m, never negative (Loader 2000). Any x >= 0, m > 0.
 * @example deviance(4, 3.3)
 */
export function deviance(x: number, mean: number): number {
  if (x === 0) return mean
  if (Math.abs(x - mean) >= near * (x + mean)) return x * Math.log(x / mean) + mean - x
  const ratio = (x - mean) / (x + mean)
  const square = ratio * ratio
  let sum = (x - mean) * ratio
  let power = 2 * x * ratio
  for (let odd = 3; ; odd += 2) {
    power *= square
    const next = sum + power / odd
    if (next === sum) return sum
    sum = next
  }
}
