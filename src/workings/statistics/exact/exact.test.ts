import assert from 'node:assert/strict'
import { test } from 'node:test'
import * as fc from 'fast-check'
import { normalDensity } from '../special/normal.ts'
import { cmhExact, cmhExactWorking } from '../cmh-exact.ts'
import { maxInfectionsInAnyLoad } from '../max-infections-in-any-load.ts'
import { mantelHaenszel } from '../mantel-haenszel-or-and-chisq.ts'
import { sampleOdds, twoByTwoExactWorking } from '../two-by-two-exact.ts'
import { adjustBh, adjustHolm } from './adjust.ts'
import { conditionalOdds } from './conditional-odds.ts'
import { exactP } from './exact-p.ts'
import { type TwoByTwo, exposedCasesOf, exposedCasesOfTable, tailsAt } from './exposed-cases.ts'

function table(a: number, b: number, c: number, d: number): TwoByTwo {
  return { casesExposed: a, casesUnexposed: b, nonCasesExposed: c, nonCasesUnexposed: d }
}

// Published outbreak investigations; the figure is what the paper prints.
const published: readonly (readonly [
  string,
  TwoByTwo,
  { readonly p: number; readonly below?: true; readonly odds?: number },
])[] = [
  ['Wenger, J Infect Dis 1998;178:1539, anesthesiologist A: P < .01', table(4, 1, 9, 41), { p: 0.01, below: true }],
  ['Wenger 1998, diabetes: P < .02', table(4, 1, 11, 39), { p: 0.02, below: true }],
  ['MMWR 2013;62(51), duodenoscope: OR 78', table(6, 2, 1, 26), { p: 0.001, below: true, odds: 78 }],
  ['Kim, Gastrointest Endosc, biliary stent: P = .024', table(8, 7, 20, 69), { p: 0.024 }],
  ['Kim, inpatient: P = .034', table(9, 6, 25, 64), { p: 0.034 }],
  ['Kim, antibiotics: P = .046', table(10, 5, 33, 56), { p: 0.046 }],
  ['Kim, cholangiocarcinoma: P = .008', table(4, 11, 3, 86), { p: 0.008 }],
  [
    'Nagpal, Infect Control Hosp Epidemiol 2014;35:1169, room A: OR 40, P = .0027',
    table(5, 1, 2, 16),
    { p: 0.0027, odds: 40 },
  ],
  ['Infect Control Hosp Epidemiol 1990;11:643, one anesthesiologist: P = .0002', table(3, 1, 37, 1110), { p: 0.0002 }],
]
for (const [name, cells, { p, below, odds }] of published) {
  test(`two-by-two-exact agrees with ${name}`, () => {
    const found = exactP(exposedCasesOfTable(cells), cells.casesExposed).twoSided
    const digits = String(p).split('.')[1]?.length ?? 0
    if (below) assert.ok(found < p, String(found))
    else assert.equal(found.toFixed(digits), p.toFixed(digits))
    if (odds !== undefined) assert.equal(sampleOdds(cells), odds)
  })
}

// At an odds ratio of thousands a coarse search in 1/OR is off by 4 %: 4557.8 in place of 4727.8.
test('the upper limit of a large odds ratio is where its tail says', () => {
  const cases = exposedCasesOfTable(table(3, 1, 37, 1110))
  const { exact } = conditionalOdds(cases, 3)
  assert.ok(Math.abs(exact[1] - 4727.802_387_968_36) < 1e-6)
  const { below, equal } = tailsAt(cases, 3, Math.log(exact[1]))
  assert.ok(Math.abs(below + equal - 0.025) < 1e-13)
})

test('the two conventions of a two-sided mid-P differ where the tails do', () => {
  const cells = table(9, 6, 25, 64)
  const p = exactP(exposedCasesOfTable(cells), 9)
  assert.ok(Math.abs(p.midTwoSided - 2 * p.midGreater) < 1e-15)
  assert.ok(Math.abs(p.midLikelihood - (p.twoSided - (p.greater - p.midGreater))) < 1e-15)
  assert.ok(p.midLikelihood - p.midTwoSided > 0.001)
})

test('an empty margin says nothing, a zero cell leaves one side open', () => {
  assert.deepEqual(conditionalOdds(exposedCasesOfTable(table(0, 5, 0, 9)), 0).exact, [0, Number.POSITIVE_INFINITY])
  const result = twoByTwoExactWorking.run(table(5, 0, 15, 130))
  assert.partialDeepStrictEqual(result, { output: { or_sample: 'Infinity', or_conditional_mle: 'Infinity' } })
  assert.equal(conditionalOdds(exposedCasesOfTable(table(0, 5, 15, 130)), 0).estimate, 0)
  assert.equal(twoByTwoExactWorking.run({ ...table(1, 2, 3, 4), casesExposed: -1 }).kind, 'unusable')
})

test('a table of tens of thousands keeps its distribution: near the normal one, and summing to 1', () => {
  const { low, logProbability } = exposedCasesOf(20_000, 20_000, 20_000)
  const spread = Math.sqrt((20_000 * 20_000) / (4 * 40_000 - 4))
  const middle = Math.exp(logProbability[10_000 - low] ?? 0)
  assert.ok(Math.abs(middle * spread - normalDensity(0)) < 1e-4)
  const sum = logProbability.reduce((total, log) => total + Math.exp(log), 0)
  assert.ok(Math.abs(sum - 1) < 1e-10)
})

const cell = fc.integer({ min: 0, max: 30 })
test('one stratum is one table, an empty stratum changes nothing, and the limits hold the estimate', () => {
  fc.assert(
    fc.property(cell, cell, cell, cell, (a, b, c, d) => {
      const one = table(a, b, c, d)
      const alone = conditionalOdds(exposedCasesOfTable(one), a)
      const { odds, p } = cmhExact([one, table(0, 3, 0, 4)])
      assert.ok(
        alone.estimate === odds.estimate || Math.abs(Math.log((odds.estimate ?? 1) / (alone.estimate ?? 1))) < 1e-9,
      )
      if (odds.estimate === null) return
      assert.ok(odds.exact[0] <= odds.mid[0] && odds.mid[0] <= odds.estimate)
      assert.ok(odds.estimate <= odds.mid[1] && odds.mid[1] <= odds.exact[1])
      assert.ok(p.twoSided <= 1 && p.greater + p.less >= 1 - 1e-12)
      const turned = conditionalOdds(exposedCasesOfTable(table(b, a, d, c)), b)
      if (odds.estimate > 0 && Number.isFinite(odds.estimate))
        assert.ok(Math.abs(Math.log(odds.estimate * (turned.estimate ?? 0))) < 1e-9)
    }),
  )
})

test('the order of the cells may be told in words', () => {
  const usual = cmhExactWorking.run({
    strata: [
      [6, 0, 2, 4],
      [3, 3, 0, 6],
    ],
  })
  const other = cmhExactWorking.run({
    strata: [
      [6, 2, 0, 4],
      [3, 0, 3, 6],
    ],
    cellOrder: '[case&exp, case&unexp, noncase&exp, noncase&unexp]',
  })
  assert.deepEqual(other, usual)
  assert.equal(cmhExactWorking.run({ strata: [[1, 2, 3, 4]], cellOrder: 'a, b, c, d' }).kind, 'unusable')
})

test('the continuity correction lowers the chi-square, and strata of one are left out', () => {
  const strata = [table(9, 2, 3, 8), table(1, 0, 0, 0)]
  const plain = mantelHaenszel(strata, false)
  const corrected = mantelHaenszel(strata, true)
  assert.ok((corrected.chiSquare ?? 9) < (plain.chiSquare ?? 0))
  assert.deepEqual(mantelHaenszel([table(9, 2, 3, 8)], false), plain)
  assert.equal(mantelHaenszel([table(0, 0, 3, 8)], true).p, null)
})

test('max-infections-in-any-load agrees with enumeration', () => {
  // Three loads of 2, three infected: some load has two in all placements but the 8 that take one from each, of C(6,3) = 20.
  assert.ok(Math.abs(maxInfectionsInAnyLoad([2, 2, 2], 3, 2) - 12 / 20) < 1e-14)
  assert.equal(maxInfectionsInAnyLoad([2, 2, 2], 3, 3), 0)
  assert.ok(Math.abs(maxInfectionsInAnyLoad([4, 0, 3], 5, 1) - 1) < 1e-14)
})

test('adjusted p-values are no smaller than raw ones, Holm no smaller than Benjamini-Hochberg, whatever the order', () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 20 }), (p) => {
      const holm = adjustHolm(p)
      const bh = adjustBh(p)
      for (const [index, raw] of p.entries()) {
        assert.ok((bh[index] ?? 0) >= raw * (1 - 1e-12) && (holm[index] ?? 0) >= (bh[index] ?? 0) - 1e-12)
      }
      assert.deepEqual(adjustHolm(p.toReversed()), holm.toReversed())
    }),
  )
})
