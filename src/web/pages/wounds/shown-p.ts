/** A p in three places; one that would round to nothing is said as an upper bound, since chance is never ruled out. */
export function shownP(p: number): string {
  return p < 0.001 ? '< 0.001' : p.toFixed(3)
}
