/** Nodes and weights of Gauss-Legendre integration from `low` to `high` (Newton's method on the Legendre recurrence). */
export function gaussLegendre(
  count: number,
  low: number,
  high: number,
): { readonly node: number; readonly weight: number }[] {
  return Array.from({ length: count }, (_, index) => {
    let x = Math.cos((Math.PI * (index + 0.75)) / (count + 0.5))
    let slope = 1
    for (let step = 0; step < 8; step += 1) {
      let before = 1
      let value = x
      for (let n = 2; n <= count; n += 1) [before, value] = [value, ((2 * n - 1) * x * value - (n - 1) * before) / n]
      slope = (count * (x * value - before)) / (x * x - 1)
      x -= value / slope
    }
    return { node: (low + high) / 2 + ((high - low) / 2) * x, weight: (high - low) / ((1 - x * x) * slope * slope) }
  })
}
