import assert from 'node:assert/strict'
import { test } from 'node:test'
import { loadFold, type LoadKnown } from './load-fold.ts'
import { monthFigures } from './month-figures.ts'

const load = (key: string, more: Partial<LoadKnown>): LoadKnown => ({ ...loadFold.begin(`load:${key}`), ...more })
const cycle = (verdict: 'met' | 'notMet' | 'notEvaluable') => ({ report: { verdict } }) as LoadKnown['cycle']

test('monthFigures: what is not known is counted as that and never as good', () => {
  const figures = monthFigures([
    load('a', { cycle: cycle('met') }),
    load('b', { cycle: cycle('notMet') }),
    load('c', { cycle: cycle('notEvaluable') }),
    load('d', {}),
    load('e', { purpose: 'airRemovalTest', airRemoval: { result: 'failed' } as LoadKnown['airRemoval'] & object }),
  ])
  assert.equal(figures.loads, 4)
  assert.deepEqual(figures.cycle, { met: 1, notMet: 1, notEvaluable: 1, notLogged: 1, cancelled: 0 })
  assert.equal(figures.failed.of, 2, 'a cycle that cannot be judged is in neither')
  assert.equal(figures.chemical.loadsWithout, 4)
  assert.deepEqual(figures.airRemoval, { passed: 0, failed: 1 })
})

test('monthFigures: no failure in ten cycles is no proof of none', () => {
  const { failed } = monthFigures(Array.from({ length: 10 }, (_, place) => load(`n${place}`, { cycle: cycle('met') })))
  // Clopper and Pearson, Biometrika 1934: for none of n the upper limit is 1 − 0.025^(1/n).
  assert.ok(Math.abs((failed.interval?.[1] ?? 0) - (1 - 0.025 ** 0.1)) < 1e-9)
  assert.equal(failed.interval?.[0], 0)
  assert.equal(monthFigures([]).failed.interval, null)
})
