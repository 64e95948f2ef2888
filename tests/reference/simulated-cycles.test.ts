import assert from 'node:assert/strict'
import { test } from 'node:test'
import { describeTally, simulateCase, tallyOf } from '../support/simulated-plan.ts'

test('readSteamCycles judges a few hundred simulated logs of every kind and fault', (context) => {
  const cases = Array.from({ length: 352 }, (_, index) => simulateCase(Math.floor(index * 1.5)))
  const tally = tallyOf(cases)
  for (const line of describeTally(tally).split('\n')) context.diagnostic(line)
  assert.deepEqual(
    tally.falsePasses.map(({ seed }) => seed),
    [],
  )
  assert.equal(tally.uncertainPasses, 0)
  assert.deepEqual(
    tally.falseFails.map(({ seed }) => seed),
    [],
  )
  assert.deepEqual(
    tally.undecided.map(({ seed }) => seed),
    [],
  )
  assert.equal(tally.unread.length, 0)
  for (const { faultKind, reading, seed } of cases)
    assert.equal(reading?.cycles, faultKind === 'two cycles' ? 2 : 1, `seed ${seed}`)
})
