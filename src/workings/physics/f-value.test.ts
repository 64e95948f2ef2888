import assert from 'node:assert/strict'
import { test } from 'node:test'
import * as fc from 'fast-check'
import { type FSample, fValueMinutes, fValueWorking } from './f-value.ts'
import { lethalRatePerMinute, lethalRateWorking } from './lethal-rate.ts'
import { near } from './near.suite.ts'

const base121 = { referenceC: 121, zK: 10 }
const base1211 = { referenceC: 121.1, zK: 10 }

function log(...pairs: readonly (readonly [number, number])[]): FSample[] {
  return pairs.map(([minutes, temperatureC]) => ({ minutes, temperatureC }))
}

function hold(temperatureC: number, minutes: number): FSample[] {
  return log([0, temperatureC], [minutes, temperatureC])
}

// Published lethal-rate table of a thermal-process lecture, 121.1 °C and z = 10 K.
test('lethalRatePerMinute is ten times as much for every z', () => {
  for (const [celsius, rate] of [
    [101.1, 0.01],
    [111.1, 0.1],
    [121.1, 1],
    [131.1, 10],
    [141.1, 100],
  ] as const) {
    near(lethalRatePerMinute(celsius, 121.1, 10), rate, rate * 1e-12)
  }
})

// Reference, section 2: the same exposure on three bases.
test('fValueMinutes depends on its base: 15 min at 121 °C is 15.00, 14.66 or 14.62', () => {
  for (const [celsius, minutes, on121, on1211, on250F] of [
    [121, 15, 15, 14.66, 14.62],
    [126, 10, 31.62, 30.9, 30.82],
    [134, 3, 59.86, 58.5, 58.35],
    [134, 18, 359.15, 350.97, 350.1],
  ] as const) {
    near(fValueMinutes(hold(celsius, minutes), base121), on121, 0.006)
    near(fValueMinutes(hold(celsius, minutes), base1211), on1211, 0.006)
    near(fValueMinutes(hold(celsius, minutes), { referenceC: 121 + 1 / 9, zK: 10 }), on250F, 0.06)
  }
})

// Earle, Unit Operations in Food Processing, 2nd ed. 1983, Table 6.2; 2.64 in print with rounded rows, 2.6568 exactly.
test('fValueMinutes reproduces a published table of held temperatures', () => {
  const rows = [
    [80, 11],
    [90, 8],
    [95, 6],
    [100, 10],
    [105, 12],
    [108, 6],
    [109, 8],
    [110, 17],
    [107, 2],
    [100, 2],
    [90, 2],
    [80, 8],
    [70, 6],
  ] as const
  let at = 0
  const steps = rows.flatMap(([celsius, minutes]) => {
    const from = at
    at += minutes
    return log([from, celsius], [at, celsius])
  })
  near(fValueMinutes(steps, base121), 2.6568, 0.00006)
  near(fValueMinutes(steps, base121), 2.64, 0.02)
  near(fValueMinutes(hold(110, 2), base121), 0.16, 0.002)
})

// Notes on F0: 15 min at 111 °C is 1.5 min at 121, 15 min at 124 °C is 29.9 min.
test('fValueMinutes reproduces the examples of the F0 note', () => {
  near(fValueMinutes(hold(111, 15), base121), 1.5, 1e-9)
  near(fValueMinutes(hold(124, 15), base121), 29.9, 0.05)
})

// Reference, section 2.2 and trap 2: the twelve break points of one cycle.
test('the trapezoid over-credits a sparse log, 113.7 instead of 91.95', () => {
  const cycle = log(
    [0, 25],
    [2, 100],
    [4, 70],
    [6, 105],
    [8, 75],
    [10, 110],
    [13, 134],
    [13.25, 134.6],
    [16.5, 134.6],
    [17, 120],
    [18, 100],
    [25, 60],
  )
  near(fValueMinutes(cycle, { ...base1211, method: 'trapezoid' }), 113.7106, 0.0001)
  near(fValueMinutes(cycle, base1211), 91.95, 0.006)
})

// Reference, section 2.2: trapezoid/exact = (a/2) coth(a/2) with a = step x ln10/z.
test('the error of the trapezoid on a ramp is the published factor', () => {
  for (const [step, factor] of [
    [1, 1.0044],
    [2, 1.018],
    [5, 1.108],
  ] as const) {
    const ramp = log([0, 110], [1, 110 + step])
    const ratio = fValueMinutes(ramp, { ...base121, method: 'trapezoid' }) / fValueMinutes(ramp, base121)
    near(ratio, factor, 0.0006)
  }
})

const celsius = fc.double({ min: 20, max: 140, noNaN: true })
const minutes = fc.double({ min: 0.01, max: 30, noNaN: true })
const anyLog = fc
  .array(fc.record({ step: minutes, temperatureC: celsius }), { minLength: 2, maxLength: 12 })
  .map((steps) => {
    let at = 0
    return steps.map(({ step, temperatureC }) => ({ minutes: (at += step), temperatureC }))
  })
const floor = fc.option(fc.double({ min: 40, max: 130, noNaN: true }), { nil: null })

test('F adds up over a split at any moment, with or without a floor', () => {
  fc.assert(
    fc.property(
      celsius,
      celsius,
      minutes,
      fc.double({ min: 0.01, max: 0.99, noNaN: true }),
      floor,
      (from, to, length, share, floorC) => {
        const middle = { minutes: length * share, temperatureC: from + share * (to - from) }
        const [first, last] = [
          { minutes: 0, temperatureC: from },
          { minutes: length, temperatureC: to },
        ]
        const options = { ...base121, floorC }
        const whole = fValueMinutes([first, last], options)
        const parts = fValueMinutes([first, middle], options) + fValueMinutes([middle, last], options)
        near(parts, whole, 1e-9 * Math.max(1, whole))
      },
    ),
  )
})

test('F never falls when the log gets warmer, and a floor never adds', () => {
  fc.assert(
    fc.property(anyLog, fc.double({ min: 0, max: 5, noNaN: true }), floor, (samples, warmer, floorC) => {
      const options = { ...base121, floorC }
      const raised = samples.map((sample) => ({ ...sample, temperatureC: sample.temperatureC + warmer }))
      assert.ok(fValueMinutes(raised, options) >= fValueMinutes(samples, options) * (1 - 1e-9))
      assert.ok(fValueMinutes(samples, options) <= fValueMinutes(samples, base121) * (1 + 1e-9))
    }),
  )
})

/** Slow and plain: the midpoint rule on 20000 slices, each counted only when its middle is at or above the floor. */
function byQuadrature(samples: readonly FSample[], floorC: number): number {
  let total = 0
  for (const [index, to] of samples.entries()) {
    const from = samples[index - 1]
    if (from === undefined) continue
    const slice = (to.minutes - from.minutes) / 20_000
    for (let n = 0; n < 20_000; n += 1) {
      const temperature = from.temperatureC + ((n + 0.5) / 20_000) * (to.temperatureC - from.temperatureC)
      if (temperature >= floorC) total += slice * 10 ** ((temperature - 121) / 10)
    }
  }
  return total
}

test('the floor cuts a piece exactly where it crosses, as fine quadrature finds', () => {
  const samples = log([0, 60], [10, 125], [14, 122], [20, 70], [30, 110])
  for (const floorC of [65, 99.5, 110, 121.5]) {
    const exact = fValueMinutes(samples, { ...base121, floorC })
    near(exact, byQuadrature(samples, floorC), 2e-4 * exact)
  }
})

test('a piece at the floor counts and one just below does not', () => {
  assert.equal(fValueMinutes(hold(100, 10), { ...base121, floorC: 100.001 }), 0)
  near(fValueMinutes(hold(100, 10), { ...base121, floorC: 100 }), 10 ** -2.1 * 10, 1e-12)
})

test('a nearly level piece keeps its digits', () => {
  near(fValueMinutes(log([0, 121], [10, 121 + 1e-10]), base121), 10, 1e-9)
})

test('the coldest channel decides', () => {
  const channels = [
    { name: 'drain', samples: hold(121, 15) },
    { name: 'pack', samples: hold(119, 15) },
  ]
  const result = fValueWorking.run({ ...base121, channels })
  assert.partialDeepStrictEqual(result, { output: { decidedBy: 'pack', minutes: 15 * 10 ** -0.2 } })
})

test('a gap longer than the limit counts nothing and is reported', () => {
  const samples = log([0, 121], [1, 121], [9, 121], [10, 121])
  const result = fValueWorking.run({ ...base121, samples, maxGapMinutes: 2 })
  assert.partialDeepStrictEqual(result, {
    output: { minutes: 2, channels: [{ gaps: [{ fromMinutes: 1, toMinutes: 9 }] }] },
  })
})

test('f-value refuses what it cannot integrate', () => {
  const samples = hold(121, 15)
  const inputs = [
    { ...base121, samples: [] },
    { ...base121, samples: samples.slice(0, 1) },
    { ...base121, samples: samples.toReversed() },
    { ...base121, samples, channels: [{ name: 'a', samples }] },
    { ...base121 },
    { referenceC: 121, zK: 0, samples },
    { zK: 10, samples },
    { ...base121, samples: log([-1, 121], [3, 121]) },
    { ...base121, samples: log([0, 121], [3, -300]) },
  ]
  for (const input of inputs) assert.equal(fValueWorking.run(input).kind, 'unusable', JSON.stringify(input))
  assert.throws(() => fValueMinutes(samples.toReversed(), base121), RangeError)
  assert.throws(() => fValueMinutes(samples, { referenceC: 121, zK: 0 }), /zK: wanted number from 2 to 100/)
  assert.equal(lethalRateWorking.run({ temperatureC: 121, referenceC: 121, zK: 0 }).kind, 'unusable')
})
