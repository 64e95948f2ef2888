import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { Bodies } from '../kinds.ts'
import { at, entered, findingsOf, knownAs, step } from '../rule-harness.ts'
import { transportInOrder } from './rules/transport-in-order.ts'
import { transportMoist } from './rules/transport-moist.ts'

type Soak = Partial<Bodies['soak-started']>

const used = knownAs('round', 'round:a', { began: step('09:00', { because: 'use' as const, case: null }) })
const unused = knownAs('round', 'round:a', { began: step('09:00', { because: 'newSet' as const, case: null }) })
const soak = (body: Soak, time = '09:30') =>
  entered('soak-started', { round: 'round:a', solution: 'enzymatic', ...body }, { at: at(time) })

interface OrderCase {
  readonly given: string
  readonly known?: typeof used
  readonly left?: string
  readonly came?: string
  readonly soaked?: string
  /** What each finding measured, as a time of the day. */
  readonly finds: readonly string[]
}

const orders: readonly OrderCase[] = [
  { given: 'no time of the way', finds: [] },
  { given: 'no time of the way, soaked before the use (a rule of its own)', soaked: '08:00', finds: [] },
  { given: 'all in order', left: '09:05', came: '09:20', finds: [] },
  { given: 'all within one minute', left: '09:00', came: '09:00', soaked: '09:00', finds: [] },
  { given: 'left before the use', left: '08:59', came: '09:20', finds: ['08:59'] },
  { given: 'came before it left', left: '09:20', came: '09:19', finds: ['09:19'] },
  { given: 'soaked before it came', left: '09:05', came: '09:31', finds: ['09:30'] },
  { given: 'came before the use, nothing said of leaving', came: '08:30', finds: ['08:30'] },
  { given: 'left after the soak, nothing said of coming', left: '09:31', finds: ['09:30'] },
  { given: 'left before the use and soaked before it came', left: '08:00', came: '09:40', finds: ['08:00', '09:30'] },
  { given: 'no use: the way alone counts', known: unused, left: '08:00', came: '08:10', finds: [] },
  { given: 'no use: came after the soak', known: unused, came: '09:40', finds: ['09:30'] },
]

for (const { given, known = used, left, came, soaked, finds } of orders) {
  test(`transport-in-order: ${given}`, () => {
    const body: Soak = {
      ...(left === undefined ? {} : { leftTheatreAt: at(left) }),
      ...(came === undefined ? {} : { arrivedAt: at(came) }),
    }
    const found = findingsOf(transportInOrder, { known: [known] }, soak(body, soaked))
    assert.deepEqual(
      found.map(({ weight, measured }) => [weight, measured]),
      finds.map((time) => ['caution', at(time)]),
    )
  })
}

test('transport-in-order goes by minutes: a use that ended within the minute of leaving is in order', () => {
  const began = { ...step('09:00', { because: 'use' as const, case: null }), at: '2026-11-25T09:00:40.000Z' as never }
  const known = knownAs('round', 'round:a', { began })
  assert.deepEqual(findingsOf(transportInOrder, { known: [known] }, soak({ leftTheatreAt: at('09:00') })), [])
})

const ways: readonly (readonly [given: string, body: Soak, then: RegExp | null])[] = [
  ['nothing said', {}, null],
  ['moist', { transport: 'moist' }, null],
  ['moist in foam', { transport: 'moist', keptIn: 'foam' }, null],
  ['in gel, the way not said', { keptIn: 'gel' }, null],
  ['dry', { transport: 'dry' }, /came dry/],
  ['dry in nothing', { transport: 'dry', keptIn: 'nothing' }, /came dry/],
  ['in nothing, the way not said', { keptIn: 'nothing' }, /came dry/],
  ['dry in water contradicts itself', { transport: 'dry', keptIn: 'water' }, /Correct the wrong one/],
  ['moist in nothing contradicts itself', { transport: 'moist', keptIn: 'nothing' }, /Correct the wrong one/],
]

for (const [given, body, then] of ways) {
  test(`transport-moist: ${given}`, () => {
    const found = findingsOf(transportMoist, { known: [used] }, soak(body))
    assert.equal(found.length, then === null ? 0 : 1)
    if (then !== null) assert.match(found[0]?.says ?? '', then)
    assert.ok(found.every(({ weight, source }) => weight === 'caution' && source.status === 'unverified'))
    // A set that was not used carries no soil that could set.
    assert.deepEqual(findingsOf(transportMoist, { known: [unused] }, soak(body)), [])
  })
}
