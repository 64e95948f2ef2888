import assert from 'node:assert/strict'
import { test } from 'node:test'
import { z } from 'zod'
import { findWorking, workings } from './registry.ts'

/** Equal but for the last digits of a number: a power may differ in them from one machine to another. */
function nearlyEqual(actual: unknown, expected: unknown): boolean {
  if (typeof actual === 'number' && typeof expected === 'number') {
    return Math.abs(actual - expected) <= 1e-9 * Math.max(1, Math.abs(expected))
  }
  if (typeof actual !== 'object' || typeof expected !== 'object' || actual === null || expected === null) {
    return Object.is(actual, expected)
  }
  const keys = Object.keys(expected)
  if (Object.keys(actual).length !== keys.length) return false
  return keys.every((key) => nearlyEqual(Reflect.get(actual, key), Reflect.get(expected, key)))
}

for (const working of workings) {
  test(`${working.id}: its example comes out as printed, and fits its own output schema`, () => {
    const result = working.run(working.example.input)
    assert.equal(result.kind, 'output')
    const output = result.kind === 'output' ? result.output : undefined
    assert.ok(nearlyEqual(output, working.example.output), JSON.stringify(output))
    assert.deepEqual(working.output.parse(output), output)
  })

  test(`${working.id}: refuses what is no input, and describes itself as JSON Schema`, () => {
    for (const input of [undefined, null, 7, 'text', [], { noSuchField: 1 }]) {
      assert.equal(working.run(input).kind, 'unusable', JSON.stringify(input))
    }
    assert.doesNotThrow(() => z.toJSONSchema(working.input, { io: 'input' }))
    assert.doesNotThrow(() => z.toJSONSchema(working.output, { io: 'output' }))
  })
}

test('ids are kebab-case, each used once, and found again', () => {
  const ids = workings.map(({ id }) => id)
  assert.equal(new Set(ids).size, ids.length)
  for (const working of workings) {
    assert.match(working.id, /^[a-z][a-z0-9]*(-[a-z0-9]+)*$/)
    assert.equal(findWorking(working.id), working)
  }
  assert.equal(findWorking('no-such-working'), undefined)
  assert.ok(Object.isFrozen(workings))
})
