import { same } from './levelled.ts'

/** Counts how often the least p of a relabelling is as small as each observed one. */
export interface MinPCount {
  readonly add: (p: Float64Array) => void
  readonly singleStep: () => number[]
  readonly stepDown: () => number[]
}

/**
 * Westfall and Young's min-P. Single step: the least p over all exposures. Step down: the least over those whose observed p is
 * no smaller, then made to rise with the observed p.
 * @param share turns a count of relabellings into a p-value.
 */
export function countMinP(raw: Float64Array, share: (count: number) => number): MinPCount {
  const order = Array.from(raw.keys()).sort((a, b) => (raw[a] ?? 1) - (raw[b] ?? 1) || a - b)
  const single = new Float64Array(raw.length)
  const down = new Float64Array(raw.length)
  return {
    add(p) {
      let least = 1
      for (let rank = order.length - 1; rank >= 0; rank -= 1) {
        const index = order[rank] ?? 0
        least = Math.min(least, p[index] ?? 1)
        if (least <= (raw[index] ?? 1) * same) down[index] = (down[index] ?? 0) + 1
      }
      for (const index of order) if (least <= (raw[index] ?? 1) * same) single[index] = (single[index] ?? 0) + 1
    },
    singleStep: () => Array.from(single, share),
    stepDown() {
      const adjusted = Array.from(raw, () => 1)
      let most = 0
      for (const index of order) {
        most = Math.max(most, share(down[index] ?? 0))
        adjusted[index] = most
      }
      return adjusted
    },
  }
}
