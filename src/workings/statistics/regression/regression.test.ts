import assert from 'node:assert/strict'
import { test } from 'node:test'
import { attackRateTableWorking } from '../attack-rate-table.ts'
import { firthLogisticWorking } from '../firth-logistic.ts'
import { logisticMlWorking } from '../logistic-ml.ts'
import { fitLogistic } from './fit-logistic.ts'

const rows = [
  { scope: 1, wait: 0, infected: 5, notInfected: 0 },
  { scope: 1, wait: 1, infected: 4, notInfected: 1 },
  { scope: 0, wait: 1, infected: 2, notInfected: 6 },
  { scope: 0, wait: 0, infected: 0, notInfected: 9 },
  { scope: 1, wait: 2, infected: 3, notInfected: 0 },
  { scope: 0, wait: 2, infected: 1, notInfected: 4 },
]
const input = { rows, formula: 'infected ~ scope + wait' }

function coefficients(output: unknown): readonly number[] {
  return ['(Intercept)', 'scope', 'wait'].map((name) => Number(Reflect.get(Object(output), name)))
}

// Maxima found by a simplex search that uses no derivative, in another language.
test('firth-logistic and logistic-ml find the maxima that a search without derivatives finds', () => {
  for (const [working, wanted] of [
    [firthLogisticWorking, [-2.166991718, 3.816220953, 0.558863778]],
    [logisticMlWorking, [-2.495309348, 4.518623321, 0.672274148]],
  ] as const) {
    const result = working.run(input)
    assert.equal(result.kind, 'output')
    for (const [index, value] of coefficients(result.kind === 'output' ? result.output : {}).entries())
      assert.ok(Math.abs(value - (wanted[index] ?? 0)) < 1e-6, `${value}, wanted ${wanted[index]}`)
  }
})

test('one person a row gives what groups give', () => {
  const people = rows.flatMap(({ scope, wait, infected, notInfected }) => [
    ...Array.from({ length: infected }, () => ({
      scope: 'Y',
      wait,
      ill: true,
      ...(scope === 0 ? { scope: 'N' } : {}),
    })),
    ...Array.from({ length: notInfected }, () => ({ scope: scope === 1, wait, ill: 0 })),
  ])
  const grouped = logisticMlWorking.run(input)
  const single = logisticMlWorking.run({
    rows: [...people, { scope: null, wait: 3, ill: 1 }],
    formula: 'ill~scope+wait',
  })
  assert.ok(grouped.kind === 'output' && single.kind === 'output')
  for (const [index, value] of coefficients(single.output).entries())
    assert.ok(Math.abs(value - (coefficients(grouped.output)[index] ?? 0)) < 1e-9)
})

test('separated data have no ordinary estimate, but a finite one by Firth; redundant covariates have none', () => {
  const separated = [
    { x: [1], infected: 5, total: 5 },
    { x: [0], infected: 0, total: 20 },
  ]
  assert.equal(fitLogistic(separated, false).kind, 'separated')
  const firth = fitLogistic(separated, true)
  assert.ok(firth.kind === 'fit')
  assert.ok(Math.abs((firth.fit.coefficients[1] ?? 0) - Math.log((5.5 * 20.5) / (0.5 * 0.5))) < 1e-9)
  const twice = rows.map(({ scope, infected, notInfected }) => ({
    x: [scope, scope],
    infected,
    total: infected + notInfected,
  }))
  assert.equal(fitLogistic(twice, false).kind, 'redundant')
  assert.equal(
    fitLogistic(
      [
        { x: [1e4], infected: 2, total: 9 },
        { x: [2e4], infected: 7, total: 9 },
      ],
      false,
    ).kind,
    'fit',
  )
})

test('formulas and fields that are not there are refused by name', () => {
  assert.match(JSON.stringify(logisticMlWorking.run({ rows, formula: 'infected~age' })), /there is no \\"age\\"/)
  assert.match(JSON.stringify(logisticMlWorking.run({ rows, formula: 'infected' })), /"field":"formula"/)
  assert.equal(logisticMlWorking.run({ formula: 'ill~age' }).kind, 'unusable')
  assert.equal(
    logisticMlWorking.run({ dataset: 'data/oswego.csv', formula: 'ill~coffee+vanilla.ice.cream' }).kind,
    'output',
  )
})

test('attack-rate-table refuses a field that is no yes or no, and takes rows as well', () => {
  const asked = { outcome: 'ill', exposures: ['age'], dataset: 'oswego' }
  assert.partialDeepStrictEqual(attackRateTableWorking.run(asked), { problems: [{ field: 'exposures[0]' }] })
  const result = attackRateTableWorking.run({
    outcome: 'ill',
    exposures: ['ham'],
    rows: [
      { ill: 1, ham: true },
      { ill: 'Y', ham: null },
      { ill: 0, ham: 'n' },
    ],
  })
  assert.partialDeepStrictEqual(result, {
    output: { value: [{ casesExposed: 1, nonCasesUnexposed: 1, rr: 'Infinity' }] },
  })
})
