import assert from 'node:assert/strict'
import { test } from 'node:test'
import { bernoulliRunLength, bernoulliWeights } from '../run-length/bernoulli-run-length.ts'
import { findRoot } from './find-root.ts'
import { logSumExp } from './log-sum-exp.ts'
import { seededGenerator } from './seeded-generator.ts'

test('logSumExp keeps what overflow and underflow would lose', () => {
  assert.equal(logSumExp([]), Number.NEGATIVE_INFINITY)
  assert.ok(Math.abs(logSumExp([1000, 1000]) - (1000 + Math.LN2)) < 1e-12)
  assert.ok(Math.abs(logSumExp([-1000, -1001]) - (-1000 + Math.log1p(Math.exp(-1)))) < 1e-12)
})

test('findRoot stays in its bracket, and refuses one without a change of sign', () => {
  assert.ok(Math.abs(findRoot((x) => x * x - 2, 0, 2) - Math.SQRT2) < 1e-15)
  assert.ok(Math.abs(findRoot((x) => (x - 1) ** 9, 0, 3) - 1) < 0.02)
  assert.ok(Math.abs(findRoot((x) => (x < 0.3 ? -1 : 1), 0, 1) - 0.3) < 1e-15)
  assert.throws(() => findRoot((x) => x * x + 1, -1, 1), RangeError)
})

test('seededGenerator repeats itself and is even', () => {
  const [one, again, other] = [seededGenerator(7), seededGenerator(7), seededGenerator(8)]
  const first = Array.from({ length: 5 }, () => one.next())
  assert.deepEqual(
    first,
    first.map(() => again.next()),
  )
  assert.notEqual(first[0], other.next())
  const counts = [0, 0, 0]
  for (let draw = 0; draw < 30_000; draw += 1) {
    const at = one.below(3)
    counts[at] = (counts[at] ?? 0) + 1
  }
  // Four standard deviations of a count of 10,000.
  for (const count of counts) assert.ok(Math.abs(count - 10_000) < 330, String(count))
})

test('the exact run length at p1 is that of a seeded simulation', () => {
  const [infected, notInfected] = bernoulliWeights(0.02, 0.06)
  const h = 2.5
  const random = seededGenerator(20_261_125)
  const lengths = Array.from({ length: 4000 }, () => {
    let steps = 0
    for (let s = 0; s < h; steps += 1) s = Math.max(0, s + (random.next() < 0.06 ? infected : notInfected))
    return steps
  })
  const mean = lengths.reduce((sum, each) => sum + each, 0) / lengths.length
  const variance = lengths.reduce((sum, each) => sum + (each - mean) ** 2, 0) / lengths.length
  const exact = bernoulliRunLength({ infected, notInfected, h }, 0.06)
  assert.ok(Math.abs(mean - exact) < 4 * Math.sqrt(variance / lengths.length), `${mean}, exact ${exact}`)
})
