import assert from 'node:assert/strict'
import { test } from 'node:test'
import { assert as assertProperty, asyncProperty, constantFrom, integer } from 'fast-check'
import { checkHistory, nothingCompared } from '../support/road-history-check.ts'

const seed = Number(process.env['SEED'] ?? 11)

test('releases, recall extents, folds and traces hold in random histories of 1,000,000 entries', async (t) => {
  const compared = nothingCompared()
  const anyHistory = asyncProperty(
    integer({ min: 1, max: 2 ** 31 }),
    // Many short histories meet more openings; a few long ones meet what only age brings.
    constantFrom(600, 1150, 1150, 2500),
    (seed, entries) => checkHistory(seed, entries, compared),
  )
  for (let part = 0; compared.entries < 1_000_000; part += 1) {
    await assertProperty(anyHistory, { numRuns: 100, seed: seed + part, endOnFailure: true })
  }
  t.diagnostic(JSON.stringify(compared))
  assert.ok(compared.extents > 2000 && compared.chains > 5000)
})
