import assert from 'node:assert/strict'

/** Asserts an absolute tolerance, and says by how much a figure misses. */
export function near(actual: number, expected: number, tolerance: number): void {
  assert.ok(Math.abs(actual - expected) <= tolerance, `${actual} is not within ${tolerance} of ${expected}`)
}
