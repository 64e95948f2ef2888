import type { AnyRule } from './rule.ts'

/** The policy, readable as a list: every rule in the order of the loop, so that findings read in that order. */
export const rules: readonly AnyRule[] = Object.freeze([])
