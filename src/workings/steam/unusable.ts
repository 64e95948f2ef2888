import type { Problem } from '#units/problem.ts'

/** An input that cannot be read at all: what was wanted, what came. Never a guess in its place. */
export interface Unusable {
  readonly kind: 'unusable'
  readonly problem: Problem
}

export function unusable(field: string, wanted: string, current: string): Unusable {
  return { kind: 'unusable', problem: { field, wanted, current } }
}

export function isUnusable(value: object): value is Unusable {
  return 'kind' in value && value.kind === 'unusable'
}
