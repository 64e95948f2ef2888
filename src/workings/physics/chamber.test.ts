import assert from 'node:assert/strict'
import { test } from 'node:test'
import * as fc from 'fast-check'
import { airFractions, airRemovalWorking } from './air-removal.ts'
import { leakRateKPaPerMinute, leakRateWorking } from './leak-rate.ts'
import { near } from './near.suite.ts'

function leak(startKPa: number, endKPa: number, seconds = 600): unknown {
  const result = leakRateWorking.run({ startKPa, endKPa, seconds })
  return result.kind === 'output' ? result.output : result
}

// Trap 10: 1.3 kPa in 10 min is the limit itself, and computes as 0.13 and a bit.
test('a leak on the limit passes although it computes above it', () => {
  assert.ok(leakRateKPaPerMinute(4, 5.3, 600) > 0.13 - 1e-12)
  assert.partialDeepStrictEqual(leak(4, 5.3), { result: 'met' })
  assert.partialDeepStrictEqual(leak(4.1, 5.4), { result: 'met' })
  assert.partialDeepStrictEqual(leak(4, 5.301), { result: 'notMet' })
  assert.partialDeepStrictEqual(leak(4, 5.4), { result: 'notMet' })
})

test('a short test or a falling pressure proves nothing, a fast rise fails whatever its time', () => {
  assert.partialDeepStrictEqual(leak(4, 4.5, 300), { result: 'notEvaluable' })
  assert.partialDeepStrictEqual(leak(4, 5, 60), { result: 'notMet' })
  assert.partialDeepStrictEqual(leak(6, 4), { result: 'notEvaluable' })
  assert.partialDeepStrictEqual(leak(4, 3.9), { result: 'met' })
  assert.equal(leakRateWorking.run({ startKPa: 4, endKPa: 5, seconds: 0 }).kind, 'unusable')
  assert.throws(() => leakRateKPaPerMinute(4, 5, 0), /seconds/)
})

// Reference, section 5.
test('airFractions reproduces the dilution table', () => {
  for (const [lowKPa, highKPa, expected] of [
    [5, 100, [5e-2, 2.5e-3, 1.25e-4, 6.3e-6]],
    [7, 100, [7e-2, 4.9e-3, 3.4e-4, 2.4e-5]],
    [10, 100, [1e-1, 1e-2, 1e-3, 1e-4]],
    [10, 180, [5.6e-2, 3.1e-3, 1.7e-4, 9.5e-6]],
  ] as const) {
    const fractions = airFractions(Array.from({ length: 4 }, () => ({ lowKPa, highKPa })))
    for (const [index, value] of expected.entries()) near(fractions[index] ?? Number.NaN, value, value * 0.02)
  }
})

test('deep pulses level off at the gas that the steam brings', () => {
  const pulses = Array.from({ length: 20 }, () => ({ lowKPa: 5, highKPa: 100 }))
  near(airFractions(pulses, 0.001).at(-1) ?? Number.NaN, 0.001, 1e-12)
})

test('a pulse never adds air, and order does not matter without gas in the steam', () => {
  const pulse = fc
    .tuple(fc.double({ min: 1, max: 100, noNaN: true }), fc.double({ min: 1, max: 3, noNaN: true }))
    .map(([lowKPa, factor]) => ({ lowKPa, highKPa: lowKPa * factor }))
  fc.assert(
    fc.property(fc.array(pulse, { minLength: 1, maxLength: 8 }), (pulses) => {
      const forward = airFractions(pulses).at(-1) ?? Number.NaN
      assert.ok(forward <= 1)
      near(airFractions(pulses.toReversed()).at(-1) ?? Number.NaN, forward, 1e-12)
    }),
  )
})

test('air-removal gives the air pressure at the bottom of the last evacuation', () => {
  const pulses = [
    { lowKPa: 10, highKPa: 100 },
    { lowKPa: 5, highKPa: 100 },
  ]
  const result = airRemovalWorking.run({ pulses })
  assert.partialDeepStrictEqual(result, { output: { airPressureKPa: 0.5 } })
})

test('air-removal refuses no pulse, no pressure and a pulse upside down', () => {
  for (const pulses of [[], [{ lowKPa: 0, highKPa: 100 }], [{ lowKPa: 100, highKPa: 5 }]]) {
    assert.equal(airRemovalWorking.run({ pulses }).kind, 'unusable')
  }
  assert.throws(() => airFractions([{ lowKPa: 6, highKPa: 5 }]), /lowKPa/)
})
