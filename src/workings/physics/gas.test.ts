import assert from 'node:assert/strict'
import { test } from 'node:test'
import { interpolatedAerationHours } from './aeration-pairs.ts'
import { dValueMinutes } from './d-value.ts'
import { eoAerationWorking } from './eo-aeration.ts'
import { eoLethalityWorking, eoLogReduction, eoZK } from './eo-lethality.ts'
import { near } from './near.suite.ts'
import { exponentialContent, hoursToLimit, sheetShareLeft } from './residue-decay.ts'

function figure(value: number | null): number {
  return value ?? Number.NaN
}

// Reference for gases, section 4.4.
test('the anchors give z 35.25 K and the published D-values', () => {
  near(eoZK, 35.25, 0.005)
  for (const [celsius, dMinutes] of [
    [37, 9.5],
    [50, 4.06],
    [54, 3.13],
    [55, 2.93],
    [60, 2.11],
    [70, 1.1],
  ] as const) {
    near(dValueMinutes(15, 30, eoZK, celsius), dMinutes, 0.006)
  }
  near(eoLogReduction([{ minutes: 60, temperatureC: 55 }]), 20.48, 0.05)
  const two = [
    { minutes: 20, temperatureC: 45 },
    { minutes: 60, temperatureC: 55 },
  ]
  near(eoLogReduction(two), 24, 0.05)
})

test('eo-lethality stays inside its anchors and calls itself information', () => {
  const run = (temperatureC: number) => eoLethalityWorking.run({ steps: [{ minutes: 60, temperatureC }] })
  assert.partialDeepStrictEqual(run(55), { output: { use: 'information only' } })
  assert.equal(run(29).kind, 'unusable')
  assert.equal(run(71).kind, 'unusable')
  assert.equal(eoLethalityWorking.run({ steps: [] }).kind, 'unusable')
})

function aerated(temperatureC: number, hours: number, more = {}): unknown {
  const result = eoAerationWorking.run({ model: 'pairs', temperatureC, hours, ...more })
  return result.kind === 'output' ? result.output : result
}

// Check cases A01 to A07 of the reference for gases.
test('only a listed pair releases an aerated load', () => {
  assert.partialDeepStrictEqual(aerated(60, 8), { result: 'met', pair: { temperatureC: 60, hours: 8 } })
  assert.partialDeepStrictEqual(aerated(60, 7.99), { result: 'notMet', pair: null })
  assert.partialDeepStrictEqual(aerated(50, 12), { result: 'met' })
  assert.partialDeepStrictEqual(aerated(50, 8), { result: 'notMet' })
  assert.partialDeepStrictEqual(aerated(59.9, 11), { result: 'notMet' })
  assert.partialDeepStrictEqual(aerated(20, 168), { result: 'met' })
  assert.partialDeepStrictEqual(aerated(19.9, 500), { result: 'notMet', adviceHours: null })
  assert.partialDeepStrictEqual(aerated(40, 29), { result: 'notMet' })
})

test("the maker's longer time counts too", () => {
  assert.partialDeepStrictEqual(aerated(60, 8, { makerHours: 10 }), { result: 'notMet' })
  assert.partialDeepStrictEqual(aerated(60, 10, { makerHours: 10 }), { result: 'met' })
})

// Reference for gases, section 4.5.
test('interpolatedAerationHours is log-linear between the pairs', () => {
  for (const [celsius, hours] of [
    [20, 168],
    [25, 108],
    [30, 69.7],
    [37, 37.7],
    [40, 28.9],
    [45, 18.6],
    [50, 12],
    [55, 9.8],
    [60, 8],
  ] as const) {
    near(figure(interpolatedAerationHours(celsius)), hours, hours > 100 ? 0.6 : 0.06)
  }
  assert.equal(interpolatedAerationHours(61), null)
})

test('sheetShareLeft reproduces the plane-sheet series', () => {
  // With L = 1 cm and D = 1/3600 cm²/s, an hour is a unit of D t/L².
  const share = (fourier: number) => sheetShareLeft(10, 1 / 3600, fourier)
  for (const [fourier, left] of [
    [0, 1],
    [0.0492, 0.5],
    [0.1, 0.302],
    [0.2, 0.1126],
    [0.4453, 0.01],
    [0.5, 0.00583],
  ] as const) {
    near(share(fourier), left, 0.0003)
  }
  near(share(0.0199999), share(0.0200001), 1e-5)
})

// Check case A24: 1 mm and 1e-7 cm²/s.
test('a sheet of 1 mm halves in 1.37 h and has 1 % after 12.37 h', () => {
  const content = (hours: number) => sheetShareLeft(1, 1e-7, hours)
  near(figure(hoursToLimit(content, 0.5)), 1.37, 0.005)
  near(figure(hoursToLimit(content, 0.01)), 12.37, 0.005)
})

test('hoursToLimit finds t½ log2(C0/limit), 0 when already there and null when never', () => {
  const content = (hours: number) => exponentialContent(80, 3, hours)
  near(figure(hoursToLimit(content, 10)), 9, 1e-6)
  assert.equal(hoursToLimit(content, 80), 0)
  assert.equal(
    hoursToLimit(() => 5, 4),
    null,
  )
})

test('the slow part of two exponentials rules the end', () => {
  const input = { fastStart: 90, fastHalfLifeHours: 1, slowStart: 10, slowHalfLifeHours: 20, hours: 20, limit: 1 }
  const result = eoAerationWorking.run({ model: 'twoExponentials', ...input })
  assert.partialDeepStrictEqual(result, { output: { kind: 'estimate', belowLimit: false } })
  const output = eoAerationWorking.output.parse(result.kind === 'output' ? result.output : undefined)
  assert.ok(typeof output === 'object' && output !== null && 'hoursToLimit' in output)
  near(Number(output.hoursToLimit), 20 * Math.log2(10), 0.01)
})
