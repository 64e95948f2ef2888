/** p-values closer than this, relatively, are the same value computed in two ways. */
export const same = 1 + 1e-9

/**
 * The same p of two exposures may be summed in two orders, and then differs in its last digits. The least of such a group
 * stands for all of it, so that no order hangs on rounding.
 */
export function levelled(p: Float64Array): Float64Array {
  const out = p.slice()
  let least = Number.NEGATIVE_INFINITY
  for (const index of Array.from(p.keys()).sort((a, b) => (p[a] ?? 1) - (p[b] ?? 1))) {
    const value = p[index] ?? 1
    if (value > least * same) least = value
    out[index] = least
  }
  return out
}
