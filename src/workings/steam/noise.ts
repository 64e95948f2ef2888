import { at, medianOf } from './series.ts'

const blockLength = 32

/**
 * Standard deviation of the noise of a channel, from how its second differences alternate.
 *
 * White noise gives neighbouring second differences a covariance of -4σ²; a smooth curve gives a positive one and a
 * single corner none, so heating and exhaust do not count as noise. The middle of many short blocks keeps spikes out,
 * and what rounding alone would give, step²/12, is taken off. Blocks that climb through the steps are passed over,
 * since there rounding looks like noise.
 */
export function noiseOf(values: Float64Array, from: number, to: number, step: number): number {
  const variances: number[] = []
  for (let start = from; start + blockLength <= to + 1; start += blockLength) {
    const variance = blockVariance(values, start)
    const climb = Math.abs(at(values, start + blockLength - 1) - at(values, start)) / blockLength
    if (climb < 0.15 * step || variance > 4 * step * step) variances.push(variance)
  }
  const middle = medianOf(variances)
  return Number.isNaN(middle) ? 0 : Math.sqrt(Math.max(0, middle - (step * step) / 12))
}

function blockVariance(values: Float64Array, start: number): number {
  let sum = 0
  let count = 0
  let last = Number.NaN
  for (let index = start + 1; index < start + blockLength - 1; index += 1) {
    const second = at(values, index - 1) - 2 * at(values, index) + at(values, index + 1)
    if (!Number.isNaN(second * last)) {
      sum += second * last
      count += 1
    }
    last = second
  }
  return count < blockLength / 2 ? Number.NaN : Math.max(0, -sum / count / 4)
}
