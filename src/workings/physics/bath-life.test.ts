import assert from 'node:assert/strict'
import { test } from 'node:test'
import { bathLifeWorking } from './bath-life.ts'

/** A use of ortho-phthalaldehyde that counts: 20 °C, 12 min, strip passed, day 10. */
const good = {
  at: '2026-03-11T10:20:00Z',
  activatedAt: '2026-03-01T08:00:00Z',
  reuseDays: 14,
  expiresAt: '2026-12-31T00:00:00Z',
  strip: 'pass',
  temperatureC: 20,
  labelTemperatureC: 20,
  immersedAt: '2026-03-11T10:00:00Z',
  removedAt: '2026-03-11T10:12:00Z',
  labelContactMinutes: 12,
  fullyImmersed: true,
  lumensFilled: true,
  cleanAndDry: true,
}

function used(change: object = {}): unknown {
  const result = bathLifeWorking.run({ ...good, ...change })
  return result.kind === 'output' ? result.output : result
}

// Check case H01.
test('a use that meets every condition counts', () => {
  assert.partialDeepStrictEqual(used(), {
    result: 'met',
    usableUntil: '2026-03-15T08:00:00.000Z',
    contactEnd: '2026-03-11T10:12:00.000Z',
    contactMinutes: 12,
  })
})

// Check cases H03, H06, H07, H12, H16 and H27 of the reference, and one condition broken at a time.
const broken: readonly (readonly [string, object, string])[] = [
  ['19 °C', { temperatureC: 19 }, 'temperature'],
  [
    'day 15',
    { at: '2026-03-16T10:20:00Z', immersedAt: '2026-03-16T10:00:00Z', removedAt: '2026-03-16T10:12:00Z' },
    'age',
  ],
  ['the last day, but over before the contact is', { activatedAt: '2026-02-25T10:05:00Z' }, 'age'],
  ['a batch past its expiry', { expiresAt: '2026-03-11T00:00:00Z' }, 'age'],
  ['immersed before activation', { activatedAt: '2026-03-11T10:01:00Z' }, 'age'],
  ['a failed strip', { strip: 'fail' }, 'strength'],
  ['1.4 % against 1.5 %', { strip: { strengthPercent: 1.4, minimumPercent: 1.5 } }, 'strength'],
  ['out a minute early', { removedAt: '2026-03-11T10:11:00Z' }, 'contact'],
  ['not fully immersed', { fullyImmersed: false }, 'fully immersed'],
  ['lumens not filled', { lumensFilled: false }, 'lumens filled'],
  ['not cleaned before', { cleanAndDry: false }, 'cleaned and dry before'],
]
for (const [name, change, rule] of broken) {
  test(`bath-life is not met: ${name}`, () => {
    const output = bathLifeWorking.output.parse(used(change))
    assert.ok(typeof output === 'object' && output !== null && 'reasons' in output && Array.isArray(output.reasons))
    assert.partialDeepStrictEqual(output, { result: 'notMet' })
    const failed = output.reasons.filter((reason: { result: string }) => reason.result !== 'met')
    assert.partialDeepStrictEqual(failed, [{ rule, result: 'notMet' }])
    assert.equal(failed.length, 1)
  })
}

// Check case H22: no strip result for this cycle is never a pass.
const unknown: readonly (readonly [string, object])[] = [
  ['no strip result', { strip: null }],
  ['temperature not measured', { temperatureC: null }],
  ['not immersed yet', { immersedAt: null, removedAt: null }],
  ['still in the bath', { removedAt: null, at: '2026-03-11T10:05:00Z' }],
  ['nobody looked at the lumens', { lumensFilled: null }],
]
for (const [name, change] of unknown) {
  test(`bath-life is not evaluable: ${name}`, () => {
    assert.partialDeepStrictEqual(used(change), { result: 'notEvaluable' })
  })
}

test('a broken condition decides even when another is not known', () => {
  assert.partialDeepStrictEqual(used({ strip: null, temperatureC: 19 }), { result: 'notMet' })
})

test('a failed strip ends the bath, whatever its age', () => {
  assert.partialDeepStrictEqual(used({ strip: 'fail' }), { usableUntil: null })
  assert.partialDeepStrictEqual(used({ strip: { strengthPercent: 1.5, minimumPercent: 1.5 } }), {
    result: 'met',
    usableUntil: '2026-03-15T08:00:00.000Z',
  })
})

test('bath-life refuses times that cannot be', () => {
  for (const change of [
    { removedAt: '2026-03-11T09:00:00Z' },
    { immersedAt: null },
    { at: 'yesterday' },
    { activatedAt: '2026-03-01T08:00:00' },
    { strip: 'maybe' },
    { reuseDays: -1 },
  ]) {
    assert.equal(bathLifeWorking.run({ ...good, ...change }).kind, 'unusable', JSON.stringify(change))
  }
})
