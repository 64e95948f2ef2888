import assert from 'node:assert/strict'
import { test } from 'node:test'
import { policyFrom } from '../policy.ts'
import { at, knownAs, step } from '../rule-harness.ts'
import { clocksFrom } from './clocks-from.ts'

const bath = knownAs('bath', 'bath:a', { product: 'ortho-phthalaldehyde-0.55', place: 'Wash room' })
const said = {
  claim: 'disinfect',
  how: 'manual',
  fullyImmersed: true,
  lumensFilled: true,
  cleanedAndDry: true,
  implant: false,
  mycobacteriaSuspected: false,
} as const
const immersion = knownAs('immersion', 'immersion:1', { bath: 'bath:a', started: step('10:00', said) })
const later = knownAs('immersion', 'immersion:2', { bath: 'bath:a', started: step('10:05', said) })
const out = knownAs('immersion', 'immersion:3', { ...immersion, id: 'immersion:3', ended: step('10:12', {}) })
const facts = { policy: policyFrom(undefined), baths: [bath], immersions: [later, immersion, out] }

test('a contact clock runs from the entry of the immersion to the time of the label, whoever asks', () => {
  const [first, second, ...rest] = clocksFrom(facts, at('10:10'))
  assert.deepEqual(
    [first?.subject, first?.endsAt, first?.left, first?.ended],
    ['immersion:1', at('10:12'), 120_000, false],
  )
  assert.equal(second?.endsAt, at('10:17'))
  assert.equal(rest.length, 0)
  assert.deepEqual(
    clocksFrom(facts, at('10:12')).map(({ ended }) => ended),
    [true, false],
  )
})

test('a claim that the product does not make has no clock', () => {
  const immersions = [{ ...immersion, started: step('10:00', { ...said, claim: 'sterilise' as const }) }]
  assert.deepEqual(clocksFrom({ ...facts, immersions }, at('10:10')), [])
})
