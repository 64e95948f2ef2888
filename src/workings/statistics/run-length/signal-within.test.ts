import assert from 'node:assert/strict'
import { test } from 'node:test'
import { designBernoulliCusum } from '../bernoulli-cusum-design.ts'
import { seededGenerator } from '../special/seeded-generator.ts'
import { type BernoulliCusum, bernoulliRunLength, bernoulliWeights } from './bernoulli-run-length.ts'
import { latticeSignalProbability } from './lattice-run-length.ts'
import { latticeAlternative, latticeSteps } from './bernoulli-lattice.ts'
import { riskAdjustedSignalWithin } from './risk-adjusted-run-length.ts'
import { loneInfectionAlarmsWithin, signalWithin } from './signal-within.ts'

function chart(p0: number, p1: number, h: number): BernoulliCusum {
  const [infected, notInfected] = bernoulliWeights(p0, p1)
  return { infected, notInfected, h }
}

/*
 * p0 = 1 %, p1 = 3 %, h = 4, computed apart from this code in R 4.2.2: a false alarm within 500 operations in 4.8 %, within 1,000 in
 * 10.6 %; at a true 3 % an alarm by 100, 200 and 500 operations in 16, 47 and 90 %, at 5 % by 100 and 200 in 51 and 90 %.
 */
const published = [
  [0.01, 500, 0.048],
  [0.01, 1000, 0.106],
  [0.03, 100, 0.16],
  [0.03, 200, 0.47],
  [0.03, 500, 0.9],
  [0.05, 100, 0.51],
  [0.05, 200, 0.9],
] as const

for (const [rate, count, wanted] of published) {
  test(`a signal within ${count} operations at ${rate}: ${wanted}`, () => {
    const room = wanted < 0.11 ? 0.0005 : 0.005
    assert.ok(Math.abs(signalWithin(chart(0.01, 0.03, 4), rate, count) - wanted) <= room)
  })
}

test('on a lattice it is the walk of the finite chain, with and without a head start', () => {
  for (const [p0, m, H] of [
    [0.01, 50, 150],
    [0.05, 8, 33],
  ] as const) {
    const [infected, notInfected] = bernoulliWeights(p0, latticeAlternative(p0, m))
    const unit = -notInfected
    for (const start of [0, Math.floor(H / 2)]) {
      const wanted = latticeSignalProbability(latticeSteps(p0, m), H, 400, start)
      const found = signalWithin({ infected, notInfected, h: H * unit }, p0, 400, start * unit)
      assert.ok(Math.abs(found / wanted - 1) < 1e-8, `${found}, ${wanted}`)
    }
  }
})

test('summed over all numbers of operations it gives the average run length', () => {
  const small = chart(0.1, 0.3, 1.8)
  let length = 0
  for (let count = 0; count < 1500; count += 1) length += 1 - signalWithin(small, 0.1, count, 0.9)
  assert.ok(Math.abs(length / bernoulliRunLength(small, 0.1, 0.9) - 1) < 1e-6, `${length}`)
})

/** Years of a chart drawn one operation after the other: how many have an alarm. Written apart from the chain. */
function simulatedYears(cusum: BernoulliCusum, rate: number, count: number, start: number, years: number): number {
  const random = seededGenerator(20261125)
  let alarmed = 0
  for (let year = 0; year < years; year += 1) {
    let sum = start
    for (let operation = 0; operation < count; operation += 1) {
      sum = Math.max(0, sum + (random.next() < rate ? cusum.infected : cusum.notInfected))
      if (sum >= cusum.h) {
        alarmed += 1
        break
      }
    }
  }
  return alarmed / years
}

for (const [p0, p1, perYear, years] of [
  [0.02, 0.06, 300, 3],
  [0.01, 0.03, 400, 5],
  [0.03, 0.09, 150, 2],
] as const) {
  test(`a year from the head start, ${p0} to ${p1}: the chain agrees with years that were drawn`, () => {
    const { h, ARL0 } = designBernoulliCusum(p0, p1, perYear * years)
    const cusum = chart(p0, p1, h)
    const draws = 40_000
    for (const start of [0, h / 2]) {
      const exact = signalWithin(cusum, p0, perYear, start)
      const drawn = simulatedYears(cusum, p0, perYear, start, draws)
      const error = Math.sqrt((exact * (1 - exact)) / draws)
      assert.ok(Math.abs(drawn - exact) < 4 * error, `${drawn} drawn, ${exact} by the chain`)
    }
    // The geometric guess says too much from 0 and too little from the head start.
    const guess = 1 - (1 - 1 / ARL0) ** perYear
    assert.ok(signalWithin(cusum, p0, perYear) < guess && guess < signalWithin(cusum, p0, perYear, h / 2))
  })
}

test('the walk by risk comes close to the exact chance when all have one risk', () => {
  // An odds ratio at one rate weighs like two rates: the same chart.
  const [p0, ratio] = [0.02, 3]
  const p1 = (ratio * p0) / (1 + (ratio - 1) * p0)
  const exact = signalWithin(chart(p0, p1, 3), p0, 400, 1.5)
  const walked = riskAdjustedSignalWithin({ risks: [p0], mixWeights: [1], oddsRatioAlt: ratio }, 3, 400, 1.5)
  assert.ok(Math.abs(walked / exact - 1) < 0.02, `${walked}, ${exact}`)
})

test('how long one infection alone would alarm from a head start', () => {
  // ln 5 = 1.609; h = 2: from 1 it reaches 2.609, and 0.085 goes with each operation before it: 0.609 / 0.085 = 7.15.
  assert.equal(loneInfectionAlarmsWithin(chart(0.02, 0.1, 2), 1), 8)
  assert.equal(loneInfectionAlarmsWithin(chart(0.02, 0.1, 2), 0), 0)
  assert.equal(loneInfectionAlarmsWithin(chart(0.02, 0.1, 1.5), 0), Number.POSITIVE_INFINITY)
  assert.equal(loneInfectionAlarmsWithin(chart(0.02, 0.1, 3.3), 1.65), 0)
})
