/** Order of the p-values, smallest first; equal ones keep their places. */
function ascending(p: readonly number[]): number[] {
  return Array.from(p.keys()).sort((a, b) => (p[a] ?? 0) - (p[b] ?? 0) || a - b)
}

/** Holm's step-down adjustment: holds the chance of any false claim. Any dependence. */
export function adjustHolm(p: readonly number[]): number[] {
  const adjusted = Array.from(p)
  let most = 0
  for (const [rank, index] of ascending(p).entries()) {
    most = Math.max(most, Math.min(1, (p.length - rank) * (p[index] ?? 1)))
    adjusted[index] = most
  }
  return adjusted
}

/** Benjamini and Hochberg's step-up adjustment: holds the expected share of false claims. */
export function adjustBh(p: readonly number[]): number[] {
  const adjusted = Array.from(p)
  let least = 1
  for (const [back, index] of ascending(p).toReversed().entries()) {
    least = Math.min(least, (p.length / (p.length - back)) * (p[index] ?? 1))
    adjusted[index] = least
  }
  return adjusted
}
