import { llrBernoulli } from './likelihood-ratio.ts'
import { sameRatio } from './best-window.ts'

/**
 * For each number of infections, the widest window whose likelihood ratio still reaches `llr`; 0 where none does.
 * The ratio falls as a window widens, so a data set reaches the observed ratio exactly if for some c a run of c infections fits.
 */
export function bernoulliReach(llr: number, cases: number, procedures: number, widest: number): Int32Array {
  const reach = new Int32Array(cases + 1)
  for (let c = 1; c <= cases; c += 1) {
    for (let n = c; n <= widest; n += 1) {
      if (llrBernoulli(c, n, cases, procedures) < llr - sameRatio) break
      reach[c] = n
    }
  }
  return reach
}

/** Whether places in ascending order hold a run of c infections within reach[c], for some c. */
export function reaches(places: ArrayLike<number>, reach: Int32Array): boolean {
  for (let last = 0; last < places.length; last += 1) {
    const end = places[last] ?? 0
    for (let c = 1; c <= last + 1; c += 1) {
      const start = places[last - c + 1] ?? 0
      if (end - start + 1 <= (reach[c] ?? 0)) return true
    }
  }
  return false
}
