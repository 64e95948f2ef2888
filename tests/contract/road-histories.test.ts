import assert from 'node:assert/strict'
import { test } from 'node:test'
import { assert as assertProperty, asyncProperty, integer } from 'fast-check'
import { checkHistory, nothingCompared } from '../support/road-history-check.ts'

// A million entries in tests/long.
const histories = 24
const entriesEach = 2100

test('releases, recall extents, folds and traces hold in random histories of 40,000 entries', async (t) => {
  const compared = nothingCompared()
  const anyHistory = asyncProperty(integer({ min: 1, max: 2 ** 31 }), (seed) =>
    checkHistory(seed, entriesEach, compared),
  )
  await assertProperty(anyHistory, { numRuns: histories, seed: 20_261_125, endOnFailure: true })
  t.diagnostic(JSON.stringify(compared))
  assert.ok(compared.entries > 40_000)
  assert.ok(compared.decisions > 400 && compared.refused > 200 && compared.decisions - compared.refused > 200)
  assert.ok(compared.extents > 80 && compared.chains > 200)
  assert.ok(compared.released > 400 && compared.lost > 8)
})
