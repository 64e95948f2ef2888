import assert from 'node:assert/strict'
import { test } from 'node:test'
import * as fc from 'fast-check'
import { findWorking } from '#workings/registry.ts'
import { annuityFactor } from './annuity.ts'
import { costPerUse, exampleFigures } from './cost-per-use.ts'
import { breakEvenUses } from './cost-what-if.ts'
import { costOfUse, figureNames, numbersAt, UseFigures } from './use-cost.ts'

/*
 * Present value of an annuity of 1, as the tables at the back of textbooks of finance print it to four places (values from memory;
 * the closed form is checked against the sum of discounted payments below).
 */
for (const [rate, years, printed] of [
  [0.03, 8, 7.0197],
  [0.05, 5, 4.3295],
  [0.05, 10, 7.7217],
  [0.1, 5, 3.7908],
  [0, 10, 10],
] as const)
  test(`annuityFactor: ${rate} a year over ${years} years is ${printed}`, () =>
    assert.equal(annuityFactor(rate, years).toFixed(4), printed.toFixed(4)))

test('annuityFactor is the sum of the payments, each discounted to today', () =>
  fc.assert(
    fc.property(fc.double({ min: 1e-6, max: 1, noNaN: true }), fc.integer({ min: 1, max: 60 }), (rate, years) => {
      const sum = Array.from({ length: years }, (_, year) => (1 + rate) ** -(year + 1)).reduce(
        (all, each) => all + each,
      )
      assert.ok(Math.abs(annuityFactor(rate, years) / sum - 1) < 1e-9)
    }),
  ))

const example = UseFigures.parse(exampleFigures)

test('the example by hand: 5 + 1 + 6 + 2 + 0.2 + 0.4 + 0.2 + 0.6 + 0.1 + 0, and its ends', () => {
  const { perUse, perYear, parts, setsNeeded, swings } = costPerUse(example)
  assert.deepEqual(
    parts.map(({ likely }) => Number(likely.toFixed(9))),
    [5, 1, 6, 2, 0.2, 0.4, 0.2, 0.6, 0.1, 0],
  )
  // 900/250 + 1 + 4 + 2 + 7.5/6, and 1200/100 + 1 + 8 + 2 + 7.5/4.
  assert.deepEqual(
    [perUse.low, perUse.likely, perUse.high, perYear].map((each) => Number(each.toFixed(9))),
    [11.85, 15.5, 24.875, 6200],
  )
  assert.equal(setsNeeded, 1)
  assert.deepEqual(
    swings.map(({ figure }) => figure),
    ['lifeUses', 'staffMinutes', 'purchase', 'load.setsPerLoad'],
  )
})

test('what is used once at 26.40 evens out with the one that is reused after 1000 / 15.9 uses; never where it is cheaper than all else', () => {
  const once = { ...exampleFigures, lifeUses: 1, repairsPerYear: 0, staffMinutes: 2, consumables: 1, load: null }
  const at = (purchase: number) => breakEvenUses(example, UseFigures.parse({ ...once, purchase }))
  assert.ok(Math.abs((at(25) ?? 0) - 1000 / 15.9) < 1e-9)
  assert.equal(at(9), null)
})

const figure = (least: number, most: number) =>
  fc
    .array(fc.double({ min: least, max: most, noNaN: true }), { minLength: 3, maxLength: 3 })
    .map((three) => three.toSorted((a, b) => a - b))
    .map(([low = 0, likely = 0, high = 0]) => ({ low, likely, high }))
const anyFigures: fc.Arbitrary<UseFigures> = fc.record({
  usesPerYear: figure(1, 1e4),
  purchase: figure(0, 1e5),
  lifeUses: figure(1.5, 1000),
  repairsPerYear: figure(0, 1e4),
  staffMinutes: figure(0, 200),
  staffHour: figure(0, 100),
  consumables: figure(0, 100),
  waterLitre: figure(0, 1),
  kilowattHour: figure(0, 1),
  load: fc.option(
    fc.record({
      setsPerLoad: figure(1, 20),
      loadsPerYear: figure(1, 5000),
      waterLitres: figure(0, 500),
      kilowattHours: figure(0, 50),
      chemicals: figure(0, 50),
      machinePrice: figure(0, 2e5),
      machineLifeYears: figure(0.5, 30),
      maintenancePerYear: figure(0, 2e4),
      testsPerYear: figure(0, 1e4),
    }),
  ),
  turnaroundHours: figure(0, 100),
  hoursOpenPerYear: figure(100, 8784),
  interest: figure(0, 0.3),
})

test('whatever ends the figures take, one use costs between the cheapest and the dearest', () =>
  fc.assert(
    fc.property(anyFigures, fc.infiniteStream(fc.constantFrom('low', 'likely', 'high' as const)), (figures, ends) => {
      const { perUse } = costPerUse(figures)
      const chosen = new Map(figureNames(figures).map((name) => [name, ends.next().value]))
      const cost = costOfUse(numbersAt(figures, (name) => chosen.get(name) ?? 'likely'))
      assert.ok(cost >= perUse.low * (1 - 1e-12) && cost <= perUse.high * (1 + 1e-12), `${cost}`)
    }),
  ))

test('figures out of order, and one option alone, are refused by name', () => {
  const bad = findWorking('cost-per-use')?.run({ ...exampleFigures, purchase: { low: 5, likely: 4, high: 6 } })
  assert.equal(bad?.kind, 'unusable')
  assert.match(JSON.stringify(bad), /a number from low to high/)
  assert.equal(findWorking('cost-what-if')?.run({ options: [{ name: 'a', figures: exampleFigures }] }).kind, 'unusable')
})
