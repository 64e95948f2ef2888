import assert from 'node:assert/strict'
import { test } from 'node:test'
import * as fc from 'fast-check'
import { rateLimit } from './rate-limit.ts'
import { keyOf } from './rates.ts'

test('rateLimit: half a minute’s worth at once, then as many as a minute brings, each key by itself', () => {
  let now = 0
  const limit = rateLimit(60, () => now)
  for (let taken = 0; taken < 30; taken += 1) assert.equal(limit.take('a'), 0)
  assert.equal(limit.take('a'), 1, 'the next is there in a second')
  assert.equal(limit.take('b'), 0)
  now += 1000
  assert.equal(limit.take('a'), 0)
  assert.equal(limit.take('a'), 1)
  limit.giveBack('a')
  assert.equal(limit.take('a'), 0, 'what did not count may be taken again')
})

test('rateLimit: whatever is asked and when, no more is taken than half a minute’s worth and what has come since', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 600 }),
      fc.array(fc.nat({ max: 5000 }), { maxLength: 300 }),
      (perMinute, gaps) => {
        let now = 0
        const limit = rateLimit(perMinute, () => now)
        let taken = 0
        for (const gap of gaps) {
          now += gap
          if (limit.take('a') === 0) taken += 1
        }
        assert.ok(taken <= Math.ceil(perMinute / 2) + (now / 60_000) * perMinute + 1e-6)
      },
    ),
  )
})

test('rateLimit: a flood of keys takes no more memory than is set aside, and who is longest away is forgotten first', () => {
  let now = 0
  const limit = rateLimit(2, () => now)
  assert.equal(limit.take('first'), 0)
  for (let key = 0; key < 20_000; key += 1) limit.take(String(key))
  assert.equal(limit.take('first'), 0, 'forgotten')
  assert.ok(limit.take('19999') > 0, 'remembered')
})

for (const [address, key] of [
  ['192.0.2.7', '192.0.2.7'],
  ['::ffff:192.0.2.7', '192.0.2.7'],
  ['::1', '0:0:0:0'],
  ['2001:db8::1', '2001:db8:0:0'],
  ['2001:db8:1:2:3:4:5:6', '2001:db8:1:2'],
  ['fe80::1%eth0', 'fe80:0:0:0'],
  ['1::', '1:0:0:0'],
] as const)
  test(`keyOf: ${address} counts as ${key}`, () => assert.equal(keyOf(address), key))
