/** Probability of each whole step from `least` upwards, per procedure. The steps that are missing to 1 signal at once. */
export interface LatticeSteps {
  readonly least: number
  readonly probabilities: readonly number[]
}

/**
 * Expected procedures to a signal, from every state 0 … threshold-1, for S = max(0, S + step), signal at S >= threshold.
 *
 * Solves (I - Q) L = 1 by elimination inside the band of the steps, without pivots: the matrix is an M-matrix, so each
 * pivot stays positive.
 * @param steps with a negative least step.
 */
export function latticeRunLengths({ least, probabilities }: LatticeSteps, threshold: number): Float64Array {
  const below = Math.min(-least, threshold - 1)
  const above = Math.min(least + probabilities.length - 1, threshold - 1)
  const width = below + 1 + Math.max(0, above)
  // Row s holds columns s-below … s+above.
  const rows = new Float64Array(threshold * width)
  const right = new Float64Array(threshold).fill(1)
  for (let s = 0; s < threshold; s += 1) {
    rows[s * width + below] = 1
    for (const [index, probability] of probabilities.entries()) {
      const to = Math.max(0, s + least + index)
      if (to >= threshold) break
      const at = s * width + to - s + below
      rows[at] = (rows[at] ?? 0) - probability
    }
  }
  for (let s = 0; s < threshold; s += 1) eliminateBelow(rows, right, s, { below, width, threshold })
  for (let s = threshold - 1; s >= 0; s -= 1) {
    let sum = right[s] ?? 0
    const last = Math.min(threshold - 1, s + width - 1 - below)
    for (let to = s + 1; to <= last; to += 1) sum -= (rows[s * width + to - s + below] ?? 0) * (right[to] ?? 0)
    right[s] = sum / (rows[s * width + below] ?? 1)
  }
  return right
}

function eliminateBelow(
  rows: Float64Array,
  right: Float64Array,
  s: number,
  { below, width, threshold }: { below: number; width: number; threshold: number },
): void {
  const pivot = rows[s * width + below] ?? 1
  for (let row = s + 1; row <= Math.min(threshold - 1, s + below); row += 1) {
    const start = row * width + s - row + below
    const factor = (rows[start] ?? 0) / pivot
    if (factor === 0) continue
    right[row] = (right[row] ?? 0) - factor * (right[s] ?? 0)
    for (let ahead = 0; ahead < width - below; ahead += 1) {
      rows[start + ahead] = (rows[start + ahead] ?? 0) - factor * (rows[s * width + below + ahead] ?? 0)
    }
  }
}

/** Probability of a signal within `count` procedures from state `start`, by forward recursion. */
export function latticeSignalProbability(
  { least, probabilities }: LatticeSteps,
  threshold: number,
  count: number,
  start = 0,
): number {
  let now = new Float64Array(threshold)
  if (start >= threshold) return 1
  // Of thousands of steps two are possible where infections are counted.
  const possible = [...probabilities.entries()].filter(([, probability]) => probability !== 0)
  now[start] = 1
  let signalled = 0
  for (let step = 0; step < count; step += 1) {
    const next = new Float64Array(threshold)
    for (let s = 0; s < threshold; s += 1) {
      const mass = now[s] ?? 0
      if (mass === 0) continue
      for (const [index, probability] of possible) {
        const to = Math.max(0, s + least + index)
        if (to >= threshold) signalled += mass * probability
        else next[to] = (next[to] ?? 0) + mass * probability
      }
    }
    now = next
  }
  return signalled
}
