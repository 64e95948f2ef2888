import assert from 'node:assert/strict'
import { test } from 'node:test'
import { bernoulliRunLength, bernoulliWeights } from '#workings/statistics/run-length/bernoulli-run-length.ts'
import { riskAdjustedRunLength, riskAdjustedWeights } from '#workings/statistics/run-length/risk-adjusted-run-length.ts'
import { seededGenerator } from '#workings/statistics/special/seeded-generator.ts'

/* Computed run lengths against seeded simulations of the charts: within four standard errors, and 0.3 % for a lattice's cells. */

const repeats = 20_000

/** Mean and standard error of the procedures to S >= h, where `draw` gives the next weight. */
function simulate(h: number, start: number, draw: () => number): { mean: number; error: number } {
  let sum = 0
  let squares = 0
  for (let repeat = 0; repeat < repeats; repeat += 1) {
    let steps = 0
    for (let s = start; s < h; steps += 1) s = Math.max(0, s + draw())
    sum += steps
    squares += steps * steps
  }
  const mean = sum / repeats
  return { mean, error: Math.sqrt((squares / repeats - mean * mean) / repeats) }
}

for (const [p0, p1, h, rate, start] of [
  [0.01, 0.03, 3, 0.01, 0],
  [0.01, 0.03, 4, 0.03, 2],
  [0.02, 0.04, 3, 0.03, 0],
  [0.1, 0.05, 1.5, 0.1, 0],
] as const) {
  test(`bernoulliRunLength ${p0} to ${p1}, h ${h}, at ${rate} from ${start}`, () => {
    const random = seededGenerator(11)
    const [infected, notInfected] = bernoulliWeights(p0, p1)
    const { mean, error } = simulate(h, start, () => (random.next() < rate ? infected : notInfected))
    const exact = bernoulliRunLength({ infected, notInfected, h }, rate, start)
    assert.ok(Math.abs(mean - exact) < 4 * error, `${mean} (${error}), exact ${exact}`)
  })
}

for (const [oddsRatioAlt, h, trueOddsRatio] of [
  [2, 2, 1],
  [2, 3, 2],
  [0.5, 1, 1],
] as const) {
  test(`riskAdjustedRunLength for odds ratio ${oddsRatioAlt}, h ${h}, at ${trueOddsRatio}`, () => {
    const random = seededGenerator(12)
    const risks = [0.02, 0.05, 0.15]
    const draw = () => {
      const risk = risks[random.below(3)] ?? 0
      const chance = (trueOddsRatio * risk) / (1 + (trueOddsRatio - 1) * risk)
      return riskAdjustedWeights(risk, oddsRatioAlt)[random.next() < chance ? 0 : 1]
    }
    const { mean, error } = simulate(h, 0, draw)
    const found = riskAdjustedRunLength({ risks, mixWeights: [1, 1, 1], oddsRatioAlt }, h, trueOddsRatio)
    assert.ok(Math.abs(mean - found) < 4 * error + 0.003 * found, `${mean} (${error}), computed ${found}`)
  })
}
