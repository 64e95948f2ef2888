import assert from 'node:assert/strict'
import { test } from 'node:test'
import { designBernoulliCusum } from './bernoulli-cusum-design.ts'
import { cusumInWords } from './cusum-in-words.ts'
import { bernoulliRunLength, bernoulliWeights } from './run-length/bernoulli-run-length.ts'
import { latticeRunLengths } from './run-length/lattice-run-length.ts'
import { latticeAlternative, latticeSteps } from './run-length/bernoulli-lattice.ts'
import { riskAdjustedRunLength } from './run-length/risk-adjusted-run-length.ts'

/*
 * Designs of the Bernoulli CUSUM, computed apart from this code in R 4.2.2 (regenerative dynamic programme, halving for the
 * smallest h); rounded as printed there. Its halving stopped earlier than ours: one of its limits has a step of the run length too many.
 */

/** p0, p1, target, h, ARL0, ARL1, infections to signal, ARL1 with head start. */
const table = [
  [0.005, 0.01, 1000, 1.163, 1001, 323, 3.2, 254],
  [0.005, 0.01, 2000, 1.521, 2000, 489, 4.9, 375],
  [0.005, 0.01, 5000, 2.176, 5002, 778, 7.8, 557],
  [0.005, 0.015, 1000, 1.672, 1002, 181, 2.7, 137],
  [0.005, 0.015, 2000, 2.147, 2028, 255, 3.8, 192],
  [0.005, 0.015, 5000, 2.94, 5017, 364, 5.5, 256],
  [0.01, 0.02, 1000, 1.521, 1001, 244, 4.9, 187],
  [0.01, 0.02, 2000, 2.004, 2000, 350, 7.0, 252],
  [0.01, 0.02, 5000, 2.736, 5004, 521, 10.4, 362],
  [0.01, 0.03, 1000, 2.153, 1006, 127, 3.8, 95],
  [0.01, 0.03, 2000, 2.758, 2003, 167, 5.0, 119],
  [0.01, 0.03, 5000, 3.558, 5023, 227, 6.8, 154],
  [0.02, 0.04, 1000, 2.01, 1003, 174, 7.0, 125],
  [0.02, 0.04, 5000, 3.347, 5003, 332, 13.3, 222],
  [0.02, 0.06, 1000, 2.754, 1002, 83, 5.0, 59],
  [0.02, 0.06, 2000, 3.353, 2024, 105, 6.3, 72],
  [0.02, 0.06, 5000, 4.209, 5002, 136, 8.2, 90],
  [0.03, 0.06, 1000, 2.335, 1001, 139, 8.3, 98],
  [0.03, 0.06, 2000, 2.906, 2009, 184, 11.0, 126],
  [0.03, 0.06, 5000, 3.727, 5018, 250, 15.0, 164],
  [0.03, 0.09, 1000, 3.105, 1005, 63, 5.7, 43],
  [0.03, 0.09, 2000, 3.756, 2031, 79, 7.1, 53],
  [0.03, 0.09, 5000, 4.613, 5029, 100, 9.0, 65],
] as const

for (const [p0, p1, target, h, arl0, arl1, infections, withHeadStart] of table) {
  test(`designBernoulliCusum ${p0} to ${p1}, a false alarm in ${target}`, () => {
    const design = designBernoulliCusum(p0, p1, target)
    assert.ok(design.ARL0 >= target)
    assert.ok(Math.abs(design.h - h) <= 0.0011, `h ${design.h}`)
    assert.ok(design.ARL0 <= arl0 + 0.51 && design.ARL0 >= arl0 - 1.5, `ARL0 ${design.ARL0}`)
    assert.ok(Math.abs(design.ARL1 - arl1) <= 0.51, `ARL1 ${design.ARL1}`)
    assert.ok(Math.abs(design.ARL1 * p1 - infections) <= 0.051, `infections ${design.ARL1 * p1}`)
    assert.ok(Math.abs(design.ARL1HeadStart - withHeadStart) <= 0.51, `head start ${design.ARL1HeadStart}`)
  })
}

test('bernoulliRunLength on a lattice is the solution of the finite chain, with and without a head start', () => {
  for (const [p0, m, H] of [
    [0.01, 50, 150],
    [0.03, 20, 70],
    [0.05, 8, 33],
  ] as const) {
    const [infected, notInfected] = bernoulliWeights(p0, latticeAlternative(p0, m))
    const unit = -notInfected
    const lengths = latticeRunLengths(latticeSteps(p0, m), H)
    for (const start of [0, Math.floor(H / 2)]) {
      const exact = bernoulliRunLength({ infected, notInfected, h: H * unit }, p0, start * unit)
      assert.ok(Math.abs(exact / (lengths[start] ?? 0) - 1) < 1e-8, `${exact}, ${lengths[start]}`)
    }
  }
})

test('bernoulliRunLength for an improvement is the solution of its chain, seen from the other side', () => {
  // +1 for a clean procedure, -(m - 1) for an infection: the same lattice, mirrored.
  const [m, H, rate] = [12, 60, 0.04]
  const probabilities = [rate, ...Array.from({ length: m - 2 }, () => 0), 0, 1 - rate]
  const chain = latticeRunLengths({ least: -(m - 1), probabilities }, H)[0] ?? 0
  const exact = bernoulliRunLength({ infected: -(m - 1), notInfected: 1, h: H }, rate)
  assert.ok(Math.abs(exact / chain - 1) < 1e-9, `${exact}, ${chain}`)
})

test('riskAdjustedRunLength of one risk comes within 0.3 % of the exact value', () => {
  const found = riskAdjustedRunLength({ risks: [0.02], mixWeights: [1], oddsRatioAlt: 2 }, 3, 1)
  assert.ok(Math.abs(found / 3576.5 - 1) < 0.003, `${found}`)
})

test('cusumInWords gives the design of its target', () => {
  const words = cusumInWords({ p0: 0.01, p1: 0.03, proceduresPerYear: 500, yearsBetweenFalseAlarms: 10 })
  assert.ok(Math.abs(words.h - 3.558) < 0.001)
  assert.equal(Math.round(words.proceduresToSignal), 227)
  // Exact: below the geometric 1 - (1 - 1/ARL0)^500 = 9.5 % from 0, above it from the head start.
  const geometric = 1 - (1 - 1 / words.ARL0) ** 500
  assert.ok(words.falseAlarmWithinYear < geometric && words.falseAlarmWithinYear > 0.8 * geometric)
  assert.ok(words.falseAlarmWithinYearHeadStart > geometric)
  assert.equal(words.loneInfectionAlarmsWithinHeadStart, 0)
})
