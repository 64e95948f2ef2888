import assert from 'node:assert/strict'
import { test } from 'node:test'
import { policyFrom } from '../policy.ts'
import { knownAs, step } from '../rule-harness.ts'
import { soakClocks } from './soak-clocks.ts'

const used = knownAs('round', 'round:a', {
  set: 'set:basic',
  began: step('10:00', { because: 'use' as const, case: null }),
})
const endsOf = (round: typeof used) =>
  soakClocks({ policy: policyFrom(undefined), immersions: [], baths: [], rounds: [round], setName: () => 'Basic' }).map(
    ({ kind, label, endsAt }) => `${kind} ${label} ${endsAt.slice(11, 16)}`,
  )

test('soak-clocks: a used set has 20 min to its soak, and 6 h to the alarm, from its last use', () => {
  assert.deepEqual(endsOf(used), ['soak Basic 10:20', 'lateSoak Basic 16:00'])
})

test('soak-clocks: none once it soaks or is washed, and none for a round that began without a use', () => {
  const soak = step('10:15', { solution: 'enzymatic', waterC: null })
  assert.deepEqual(endsOf({ ...used, soak }), [])
  assert.deepEqual(endsOf({ ...used, began: step('10:00', { because: 'newSet' as const, case: null }) }), [])
})
