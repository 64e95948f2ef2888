import assert from 'node:assert/strict'
import { test } from 'node:test'
import * as fc from 'fast-check'
import { dValueMinutes } from './d-value.ts'
import { exposureForSurvivorsMinutes, exposureForSurvivorsWorking } from './exposure-for-survivors.ts'
import { fractionNegativeDMinutes, fractionNegativeDWorking } from './fraction-negative-d.ts'
import { logReduction, logReductionWorking, survivorsAfter } from './log-reduction.ts'
import { near } from './near.suite.ts'
import { survivalKillMinutes, survivalKillWorking } from './survival-kill.ts'

// Reference, section 3: published worked values.
test('dValueMinutes carries a D to another temperature', () => {
  near(dValueMinutes(4.5, 150, 10, 160), 0.45, 1e-12)
  near(dValueMinutes(1.5, 121, 10, 134), 0.07518, 0.00001)
})

test('logReduction is F/D: 10 min of D for 6 logs is 60 min, 0.1 min is 0.6 min', () => {
  near(logReduction(60, 10), 6, 1e-12)
  near(logReduction(0.6, 0.1), 6, 1e-12)
  assert.throws(() => logReduction(-1, 1), /fMinutes/)
  assert.throws(() => logReduction(1, 0), /dMinutes/)
})

test('a population of 100 or 0.0001 is the chance of a survivor at the survival and kill time', () => {
  near(survivorsAfter(1e6, 4).atLeastOne, 1, 1e-12)
  near(survivorsAfter(1e6, 10).atLeastOne, 1e-4, 1e-8)
  const result = logReductionWorking.run({ fMinutes: 15, dMinutes: 1.5, population: 1e6 })
  assert.equal(result.kind, 'output')
  assert.partialDeepStrictEqual(logReductionWorking.run({ fMinutes: 15, dMinutes: 1.5 }), {
    output: { logs: 10, survivors: null, probabilityOfSurvivor: null },
  })
})

test('exposureForSurvivorsMinutes: 1e6, D 1.5, to 1e-6 is 18 min; D 1 is 12 min', () => {
  near(exposureForSurvivorsMinutes(1e6, 1.5, 1e-6), 18, 1e-9)
  near(exposureForSurvivorsMinutes(1e6, 1, 1e-6), 12, 1e-9)
  near(exposureForSurvivorsMinutes(100, 1, 1e-6), 8, 1e-9)
  assert.throws(() => exposureForSurvivorsMinutes(10, 1, 11), /survivors: wanted number from .* to 10/)
  assert.equal(exposureForSurvivorsWorking.run({ population: 10, dMinutes: 1, survivors: 11 }).kind, 'unusable')
})

test('the exposure for N survivors leaves N survivors', () => {
  const population = fc.double({ min: 1, max: 1e9, noNaN: true })
  const share = fc.double({ min: 1e-12, max: 1, noNaN: true })
  fc.assert(
    fc.property(population, share, fc.double({ min: 0.01, max: 10, noNaN: true }), (start, left, dMinutes) => {
      const survivors = start * left
      const logs = logReduction(exposureForSurvivorsMinutes(start, dMinutes, survivors), dMinutes)
      near(survivorsAfter(start, logs).survivors / survivors, 1, 1e-9)
    }),
  )
})

// Trap 4: log10(N0) - 2, not log10(N0 - 2), which would give 9.0 and 9.0.
test('survivalKillMinutes takes 2 from the logarithm, not from the population', () => {
  assert.deepEqual(survivalKillMinutes(1e6, 1.5), { survivalMinutes: 6, killMinutes: 15 })
  assert.deepEqual(survivalKillMinutes(1e5, 1.5), { survivalMinutes: 4.5, killMinutes: 13.5 })
  near(survivalKillMinutes(2.3e6, 1.9).survivalMinutes, 8.2873, 0.0001)
  assert.equal(survivalKillWorking.run({ population: 99, dMinutes: 1.5 }).kind, 'unusable')
})

test('fractionNegativeDMinutes gives back the D that made the fraction', () => {
  near(fractionNegativeDMinutes(10, 1e6, 20, 8) ?? Number.NaN, 1.6562, 0.0001)
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 99 }), fc.double({ min: 0.5, max: 5, noNaN: true }), (negative, dMinutes) => {
      const survivors = Math.log(100 / negative)
      const minutes = dMinutes * (6 - Math.log10(survivors))
      near(fractionNegativeDMinutes(minutes, 1e6, 100, negative) ?? Number.NaN, dMinutes, 1e-9)
    }),
  )
})

test('fraction-negative-d says nothing when all or no units are negative', () => {
  const input = { minutes: 10, population: 1e6, units: 20 }
  for (const negative of [0, 20]) {
    assert.deepEqual(fractionNegativeDWorking.run({ ...input, negative }), {
      kind: 'output',
      output: { dMinutes: null, result: 'notEvaluable' },
    })
  }
  assert.equal(fractionNegativeDWorking.run({ ...input, negative: 21 }).kind, 'unusable')
})
