import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { TypedSent } from '../kinds.ts'
import { at, entered } from '../rule-harness.ts'
import { loadFold } from './load-fold.ts'

/* A test load is done once its result is on record, whichever was entered first. Common practice, no published source. */

const built = entered(
  'load-built',
  { load: 'load:t', machine: 'machine:s', program: 'p', purpose: 'airRemovalTest', rounds: [] },
  { at: at('06:00') },
)
const read = (result: 'passed' | 'failed') =>
  entered(
    'air-removal-tested',
    { machine: 'machine:s', load: 'load:t', result, indicatorLot: 'a' },
    { at: at('07:00') },
  )

function standingAfter(...entries: readonly TypedSent[]): string {
  const kept = entries.map((entry, place) => ({ ...entry, seq: place + 1, recordedAt: entry.happenedAt }))
  return loadFold.standing(
    kept.reduce((state, entry) => loadFold.evolve(state, entry as never), loadFold.begin('load:t')),
  )
}

test('an air-removal test load stands as its indicator was read', () => {
  assert.equal(standingAfter(built), 'built')
  assert.equal(standingAfter(built, read('passed')), 'testPassed')
  assert.equal(standingAfter(built, read('failed')), 'testFailed')
  assert.equal(standingAfter(built, read('failed'), read('passed')), 'testPassed')
})
