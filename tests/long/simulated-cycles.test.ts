import assert from 'node:assert/strict'
import { test } from 'node:test'
import { describeTally, simulateCase, tallyOf } from '../support/simulated-plan.ts'

test('readSteamCycles passes none of 3,174 simulated logs wrongly, and hardly fails one', (context) => {
  const tally = tallyOf(Array.from({ length: 3174 }, (_, index) => simulateCase(100_000 + index)))
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
  assert.ok(tally.undecided.length <= 0.02 * tally.trulyMet, `${tally.undecided.length} undecided`)
  assert.equal(tally.unread.length, 0)
})
