/** The most levels that JSON from outside may have: what reads it walks it by recursion. */
export const levelsAllowed = 64

/** Whether a value lies deeper than this many levels; it goes no deeper itself. */
export function deeperThan(value: unknown, levels: number): boolean {
  if (typeof value !== 'object' || value === null) return false
  if (levels === 0) return true
  return Object.values(value).some((member) => deeperThan(member, levels - 1))
}
