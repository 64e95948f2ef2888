/** x ln(x/y), 0 where x is 0. */
function part(x: number, y: number): number {
  return x === 0 ? 0 : x * Math.log(x / y)
}

/**
 * Poisson log likelihood ratio of a window with c of C events where e were expected; 0 unless there are more than expected.
 * @example llrPoisson(6, 1.8, 20) // 3.5507
 */
export function llrPoisson(c: number, e: number, total: number): number {
  if (c <= e) return 0
  return part(c, e) + part(total - c, total - e)
}

/**
 * Bernoulli log likelihood ratio of a window with c infected of n procedures, of C of N in all; 0 unless the rate inside is
 * the higher one.
 * @example llrBernoulli(4, 25, 9, 600) // 7.0349
 */
export function llrBernoulli(c: number, n: number, cases: number, procedures: number): number {
  const outside = procedures - n
  const casesOutside = cases - c
  if (n === 0 || c * outside <= casesOutside * n) return 0
  const inside = part(c, n) + part(n - c, n)
  const rest = part(casesOutside, outside) + part(outside - casesOutside, outside)
  return Math.max(0, inside + rest - part(cases, procedures) - part(procedures - cases, procedures))
}
