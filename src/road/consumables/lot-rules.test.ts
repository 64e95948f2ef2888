import assert from 'node:assert/strict'
import { test } from 'node:test'
import { Celsius } from '#units/quantities.ts'
import type { KnownOf } from '../known.ts'
import type { AnyRule } from '../rule.ts'
import { at, entered, findingsOf, knownAs, step } from '../rule-harness.ts'
import { badLotIsRecalled } from './rules/bad-lot-is-recalled.ts'
import { detergentInMakerRange } from './rules/detergent-in-maker-range.ts'
import { indicatorLotControlledThatDay } from './rules/indicator-lot-controlled-that-day.ts'
import { lotFitForUse } from './rules/lot-fit-for-use.ts'
import { lotTriedBeforeUse } from './rules/lot-tried-before-use.ts'

const lot = (state: Partial<KnownOf<'lot'>> = {}) => [knownAs('lot', 'lot:x', { number: 'x', ...state })]
const wash = entered('wash-recorded', {
  wash: 'wash:1',
  rounds: ['round:a'],
  detergent: { lot: 'lot:x' },
  how: { kind: 'washer', machine: 'machine:w', program: 'P', takenApart: true, a0Seconds: 600 },
})
const washed = (detergent: { dilutionMlPerLitre?: number; temperatureC?: Celsius }, detergentPercent?: number) =>
  entered('wash-recorded', {
    wash: 'wash:1',
    rounds: ['round:a'],
    detergent: { lot: 'lot:x', ...detergent },
    ...(detergentPercent === undefined ? {} : { detergentPercent }),
    how: { kind: 'washer', machine: 'machine:w', program: 'P', takenApart: true, a0Seconds: 600 },
  })
const warm = (value: number) => Celsius.parse(value)
/** A maker who wants 5 to 10 ml in a litre, at 35 to 43 °C. */
const makerRange = { dilutionMlPerLitre: { from: 5, to: 10 }, temperatureC: { from: warm(35), to: warm(43) } }
const detergent = lot({ of: 'detergent', makerRange })
const right = { dilutionMlPerLitre: 5, temperatureC: warm(43) }
const seal = entered('pack-sealed', {
  round: 'round:a',
  wrap: 'pouch',
  wrapLot: 'lot:x',
  insideIndicator: null,
  outsideIndicator: null,
  counted: [],
  implant: false,
})
const load = entered('load-built', {
  load: 'load:1',
  machine: 'machine:s',
  program: 'P',
  purpose: 'goods',
  rounds: [],
  chemicalLot: 'lot:x',
})
const read = (control: 'growth' | 'noGrowth' | null, result: 'growth' | 'noGrowth' = 'noGrowth') =>
  entered('biological-read', {
    load: 'load:1',
    lot: 'x',
    fromLot: 'lot:x',
    result,
    control: control === null ? null : { lot: 'x', fromLot: 'lot:x', result: control },
    incubatedHours: 24,
  })
const controlled = (result: 'passed' | 'failed') => step('08:00', { result, what: 'tried on opening' })
const grown = (result: 'growth' | 'noGrowth') => step('08:00', { result })
const yesterday = { ...grown('growth'), at: '2026-11-24T08:00:00.000Z' as never }

const rows: readonly (readonly [AnyRule, ReturnType<typeof lot>, ReturnType<typeof read>, readonly string[]])[] = [
  [detergentInMakerRange, detergent, washed(right), []],
  [detergentInMakerRange, detergent, washed({ ...right, dilutionMlPerLitre: 4.9 }), ['caution']],
  [detergentInMakerRange, detergent, washed({ ...right, dilutionMlPerLitre: 10.1 }), ['caution']],
  [detergentInMakerRange, detergent, washed({ ...right, temperatureC: warm(34.9) }), ['caution']],
  [
    detergentInMakerRange,
    detergent,
    washed({ dilutionMlPerLitre: 20, temperatureC: warm(44) }),
    ['caution', 'caution'],
  ],
  [detergentInMakerRange, detergent, washed({ temperatureC: warm(40) }, 1), []],
  [detergentInMakerRange, detergent, washed({ temperatureC: warm(40) }, 2), ['caution']],
  [detergentInMakerRange, detergent, washed({}), ['note', 'note']],
  [detergentInMakerRange, lot({ of: 'detergent' }), washed(right), ['note', 'note']],
  [detergentInMakerRange, lot({ of: 'other' }), washed(right), []],
  [lotFitForUse, lot(), wash, []],
  [lotFitForUse, lot({ expiresAt: at('11:59') }), wash, ['stop']],
  [lotFitForUse, lot({ expiresAt: at('12:00') }), wash, []],
  [lotFitForUse, lot({ discardAt: at('11:59') }), seal, ['stop']],
  [lotFitForUse, lot({ useFrom: at('12:01') }), load, ['stop']],
  [lotFitForUse, lot({ control: controlled('failed') }), load, ['stop']],
  [lotFitForUse, lot({ held: step('11:00', { why: 'a doubt' }) }), seal, ['stop']],
  [lotTriedBeforeUse, lot(), load, []],
  [lotTriedBeforeUse, lot({ needsControl: true }), load, ['notEvaluable']],
  [lotTriedBeforeUse, lot({ needsControl: true, control: controlled('passed') }), load, []],
  [lotTriedBeforeUse, lot({ needsControl: true }), read('growth'), []],
  [lotTriedBeforeUse, lot({ needsControl: true }), read(null), ['notEvaluable']],
  [indicatorLotControlledThatDay, lot(), read('growth'), []],
  [indicatorLotControlledThatDay, lot(), read('noGrowth'), ['caution']],
  [indicatorLotControlledThatDay, lot(), read(null), ['notEvaluable']],
  [indicatorLotControlledThatDay, lot({ grownControl: grown('growth') }), read(null), []],
  [indicatorLotControlledThatDay, lot({ grownControl: grown('noGrowth') }), read(null), ['notEvaluable']],
  [indicatorLotControlledThatDay, lot({ grownControl: yesterday }), read(null), ['notEvaluable']],
  [indicatorLotControlledThatDay, lot(), read(null, 'growth'), []],
]

for (const [index, [rule, known, entry, wanted]] of rows.entries()) {
  test(`${rule.id}, row ${index}: ${wanted.join(', ') || 'nothing found'}`, () => {
    const weights = findingsOf(rule, { known }, entry).map((finding) => finding.weight)
    assert.deepEqual(weights, wanted)
  })
}

test('bad-lot-is-recalled asks for the recall of a lot that failed, not of one that is used up', () => {
  const tried = (result: 'passed' | 'failed') =>
    findingsOf(
      badLotIsRecalled,
      { known: lot() },
      entered('lot-quality-controlled', { lot: 'lot:x', result, what: 'strips' }),
    )
  assert.equal(tried('failed').length, 1)
  assert.equal(tried('passed').length, 0)
  const out = (because: 'usedUp' | 'faulty') =>
    findingsOf(badLotIsRecalled, { known: lot() }, entered('lot-withdrawn', { lot: 'lot:x', because, why: 'as said' }))
  assert.equal(out('faulty').length, 1)
  assert.equal(out('usedUp').length, 0)
})
