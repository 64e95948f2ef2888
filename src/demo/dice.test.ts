import assert from 'node:assert/strict'
import { test } from 'node:test'
import { diceOf } from './dice.ts'

test('dice of one purpose do not depend on other draws', () => {
  const quiet = diceOf(3)('soak')
  const busy = diceOf(3)
  busy('wash').share()
  assert.equal(busy('soak').share(), quiet.share())
})

test('dice are even: each tenth of 20,000 draws gets a tenth of them', () => {
  const dice = diceOf(11)('even')
  const counts = Array.from({ length: 10 }, () => 0)
  for (let draw = 0; draw < 20_000; draw += 1) {
    const tenth = Math.floor(dice.share() * 10)
    counts[tenth] = (counts[tenth] ?? 0) + 1
  }
  // Chi-squared with 9 degrees of freedom; 27.9 is its 0.999 quantile.
  const chiSquared = counts.reduce((sum, count) => sum + (count - 2000) ** 2 / 2000, 0)
  assert.ok(chiSquared < 27.9, `chi-squared ${chiSquared}`)
})

test('whole gives both ends and nothing beyond', () => {
  const dice = diceOf(5)('ends')
  const seen = new Set(Array.from({ length: 400 }, () => dice.whole(-2, 2)))
  assert.deepEqual(
    [...seen].sort((a, b) => a - b),
    [-2, -1, 0, 1, 2],
  )
})
