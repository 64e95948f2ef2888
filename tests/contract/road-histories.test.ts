import assert from 'node:assert/strict'
import { test } from 'node:test'
import { assert as assertProperty, asyncProperty, integer } from 'fast-check'
import { checkHistory, nothingCompared } from '../support/road-history-check.ts'

const histories = 60
const entriesEach = 2100

test('releases, recall extents, folds and traces hold in random histories of 100,000 entries', async (t) => {
  const compared = nothingCompared()
  const anyHistory = asyncProperty(integer({ min: 1, max: 2 ** 31 }), (seed) =>
    checkHistory(seed, entriesEach, compared),
  )
  await assertProperty(anyHistory, { numRuns: histories, seed: 20_261_125, endOnFailure: true })
  t.diagnostic(JSON.stringify(compared))
  assert.ok(compared.entries >= 100_000)
  assert.ok(compared.decisions > 1000 && compared.refused > 500 && compared.decisions - compared.refused > 500)
  assert.ok(compared.extents > 200 && compared.chains > 500)
  assert.ok(compared.released > 1000 && compared.lost > 20)
})
