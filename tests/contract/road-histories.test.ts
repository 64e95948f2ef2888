import assert from 'node:assert/strict'
import { test } from 'node:test'
import fc from 'fast-check'
import { checkHistory, nothingCompared } from '../support/road-history-check.ts'

const histories = 100
const entriesEach = 1000

test('releases, recall extents, folds and traces hold in random histories of 100,000 entries', async (t) => {
  const compared = nothingCompared()
  const anyHistory = fc.asyncProperty(fc.integer({ min: 1, max: 2 ** 31 }), (seed) =>
    checkHistory(seed, entriesEach, compared),
  )
  await fc.assert(anyHistory, { numRuns: histories, seed: 20_261_125, endOnFailure: true })
  t.diagnostic(JSON.stringify(compared))
  assert.ok(compared.entries >= 0.95 * histories * entriesEach)
  assert.ok(compared.decisions > 1000 && compared.refused > 500 && compared.decisions - compared.refused > 500)
  assert.ok(compared.extents > 200 && compared.chains > 500)
})
