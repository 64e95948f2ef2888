/** Stops at a mistake of ours, never at a mistake of the user's. */
export function invariant(condition: unknown, message: string): asserts condition {
  if (!condition) throw new Error(`Invariant failed: ${message}`)
}
