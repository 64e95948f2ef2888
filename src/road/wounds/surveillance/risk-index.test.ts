import assert from 'node:assert/strict'
import { test } from 'node:test'
import { EntryId } from '../../entry.ts'
import { at } from '../../rule-harness.ts'
import { policyFrom } from '../../policy.ts'
import { durationCutFrom, durationCutLeast, givenDurationCuts } from '../risk-limits.ts'
import { type DurationCut, durationCuts } from './duration-cut.ts'
import { operationRisk } from './risk-index.ts'

/*
 * The points are those of Gaynes 2001: ASA 3 or more, contaminated or dirty, longer than the 75th percentile; with the
 * laparoscope gall bladder and colon lose one, appendix and stomach are split in category 0.
 */

const entryId = EntryId.parse('01990000-0000-7000-8000-000000000001')

function policyWith(values: Readonly<Record<string, string | number>>) {
  const changed = Object.fromEntries(
    Object.entries(values).map(([id, value]) => [
      id,
      { value, reason: 'test', entry: entryId, at: at('08:00'), by: 'person:ada' as const },
    ]),
  )
  return policyFrom({ id: 'policy:unit', version: entryId, changed })
}

const plain = policyWith({})
const source = { title: 'test', status: 'proposal' } as const
const cut99: DurationCut = { procedure: 'cholecystectomy', minutes: 99, from: 'given', operations: 0, source }
const easy = {
  procedure: 'cholecystectomy',
  asa: 1,
  woundClass: 'II',
  minutes: 60,
  converted: false,
  cut: cut99,
  scheme: 'notUsed',
} as const

const rows = [
  ['no point', {}, '0'],
  ['ASA 3', { asa: 3 }, '1'],
  ['ASA 2 does not score', { asa: 2 }, '0'],
  ['contaminated', { woundClass: 'III' }, '1'],
  ['longer than the cut point', { minutes: 100 }, '1'],
  ['as long as the cut point does not score', { minutes: 99 }, '0'],
  ['all three', { asa: 4, woundClass: 'IV', minutes: 180 }, '3'],
  ['gall bladder with the laparoscope, no point', { scheme: 'scheme2001' }, 'M'],
  ['gall bladder with the laparoscope, one point', { scheme: 'scheme2001', asa: 3 }, '0'],
  ['gall bladder converted to open keeps its point', { scheme: 'scheme2001', asa: 3, converted: true }, '1'],
  ['appendix with the laparoscope', { scheme: 'scheme2001', procedure: 'appendectomy' }, '0-Yes'],
  ['appendix converted to open', { scheme: 'scheme2001', procedure: 'appendectomy', converted: true }, '0-No'],
  ['appendix with a point is left as it is', { scheme: 'scheme2001', procedure: 'appendectomy', asa: 3 }, '1'],
  ['an operation that the scheme does not name', { scheme: 'scheme2001', procedure: 'splenectomy' }, '0'],
] as const

for (const [name, change, wanted] of rows) {
  test(`risk index: ${name}`, () => {
    assert.equal(operationRisk({ ...easy, ...change }).category, wanted)
  })
}

test('without ASA, or without a cut point, the index is not evaluable and says what is missing', () => {
  const without = operationRisk({ ...easy, asa: null, cut: undefined, minutes: 500 })
  assert.equal(without.category, null)
  assert.deepEqual(without.missing, ['asa', 'durationCut'])
  assert.deepEqual(without.points, { asa: null, woundClass: false, duration: null })
})

const operations = (count: number) =>
  Array.from({ length: count }, (_, index) => ({ procedure: 'cholecystectomy' as const, minutes: 10 * (index + 1) }))

test('the own 75th percentile is used from the least number of operations on, with its count', () => {
  // R: quantile(10 * 1:20, .75) is 152.5.
  const cut = durationCuts(operations(20), plain).get('cholecystectomy')
  assert.deepEqual([cut?.minutes, cut?.from, cut?.operations], [152.5, 'own', 20])
})

test('with fewer the given one stands in; where none is given there is no cut point', () => {
  const cuts = durationCuts(operations(19), plain)
  const cut = cuts.get('cholecystectomy')
  assert.deepEqual([cut?.minutes, cut?.from, cut?.operations, cut?.source.status], [99, 'given', 19, 'unverified'])
  assert.equal(cuts.has('splenectomy'), false)
})

test('a unit may choose the given ones, enter its own, and ask for more operations', () => {
  const given = policyWith({ [durationCutFrom.id]: 'given', [givenDurationCuts.splenectomy.id]: 130 })
  const cuts = durationCuts(operations(40), given)
  assert.deepEqual([cuts.get('cholecystectomy')?.from, cuts.get('splenectomy')?.minutes], ['given', 130])
  const more = durationCuts(operations(40), policyWith({ [durationCutLeast.id]: 50 }))
  assert.equal(more.get('cholecystectomy')?.from, 'given')
})
