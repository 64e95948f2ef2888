import assert from 'node:assert/strict'
import { test } from 'node:test'
import { instant } from '../instant.ts'
import { policyFrom } from '../policy.ts'
import { at, step } from '../rule-harness.ts'
import { type LotCare, lotCare } from './lot-care.ts'
import { lotFold, type LotKnown } from './lot-fold.ts'

const now = at('12:00')
const inDays = (days: number) => instant(Date.parse(now) + days * 86_400_000)
const tried = (result: 'passed' | 'failed') => step('08:00', { result, what: 'tried on opening' })

const rows: readonly (readonly [Partial<LotKnown>, LotCare])[] = [
  [{}, 'inUse'],
  [{ expiresAt: inDays(31) }, 'inUse'],
  [{ expiresAt: inDays(30) }, 'expiring'],
  [{ expiresAt: inDays(400), discardAt: inDays(5) }, 'expiring'],
  [{ expiresAt: now }, 'expiring'],
  [{ expiresAt: inDays(-1) }, 'expired'],
  [{ expiresAt: inDays(-1), needsControl: true }, 'expired'],
  [{ needsControl: true }, 'toBeControlled'],
  [{ needsControl: true, control: tried('passed') }, 'inUse'],
  [{ useFrom: inDays(1) }, 'notYet'],
  [{ held: step('09:00', { why: 'a doubt' }), expiresAt: inDays(-1) }, 'held'],
  [{ control: tried('failed') }, 'inDoubt'],
]

for (const [state, wanted] of rows) {
  test(`lotCare: ${JSON.stringify(state)} is ${wanted}`, () => {
    assert.equal(lotCare({ ...lotFold.begin('lot:x'), ...state }, now, policyFrom(undefined), false), wanted)
  })
}

test('lotCare: what an open recall names is in doubt, whatever else', () => {
  assert.equal(lotCare(lotFold.begin('lot:x'), now, policyFrom(undefined), true), 'inDoubt')
})
