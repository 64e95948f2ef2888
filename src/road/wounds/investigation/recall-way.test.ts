import assert from 'node:assert/strict'
import { test } from 'node:test'
import { at, knownAs, step } from '../../rule-harness.ts'
import type { CaseExposure } from './exposures-of-case.ts'
import { exposureTypes } from './exposure-types.ts'
import { recallWay } from './recall-way.ts'

const met = (type: CaseExposure['type'], id: string): CaseExposure => ({ type, id, at: at('09:00'), flags: [] })

const rinse = {
  water: 'tap',
  outlet: 'outlet:sink',
  minutes: 1,
  litres: 8,
  lumenMillilitres: null,
  alcoholAndAir: false,
} as const

const known = {
  loads: new Map([
    ['load:1', knownAs('load', 'load:1', { machine: 'machine:a', builtAt: at('10:00') })],
    ['load:2', knownAs('load', 'load:2', { machine: 'machine:a', builtAt: at('08:00') })],
    ['load:3', knownAs('load', 'load:3', { machine: 'machine:b', builtAt: at('07:00') })],
  ] as const),
  baths: new Map([
    ['bath:1', knownAs('bath', 'bath:1', { product: 'ortho-phthalaldehyde-0.55' })],
    ['bath:2', knownAs('bath', 'bath:2', { product: 'glutaraldehyde-2' })],
  ] as const),
  immersions: new Map([
    [
      'immersion:1',
      knownAs('immersion', 'immersion:1', {
        bath: 'bath:1',
        rinses: [step('09:30', rinse)],
      }),
    ],
  ] as const),
}
const infected = [
  { exposures: [met('load', 'load:1'), met('steriliser', 'machine:a'), met('bath', 'bath:1'), met('bath', 'bath:2')] },
  { exposures: [met('load', 'load:2'), met('load', 'load:3')] },
]
const way = (type: string, id: string) => recallWay(type, id, infected, known)

test('a load, a bath and a lot are recalled themselves', () => {
  for (const [type, id] of [
    ['load', 'load:1'],
    ['bath', 'bath:1'],
    ['lot', 'lot:x'],
  ] as const)
    assert.deepEqual(way(type, id), { recalls: [{ of: id, since: null }], without: null })
})

test('a steriliser is recalled from the first of its loads that an infected case met', () => {
  assert.deepEqual(way('steriliser', 'machine:a'), { recalls: [{ of: 'load:2', since: at('08:00') }], without: null })
  assert.deepEqual(way('steriliser', 'machine:z'), { recalls: [], without: null })
})

test('an outlet and a solution are recalled by the baths that the infected met, and say what else to do', () => {
  assert.deepEqual(way('outlet', 'outlet:sink'), { recalls: [{ of: 'bath:1', since: null }], without: 'water' })
  assert.deepEqual(way('outlet', 'outlet:other'), { recalls: [], without: 'water' })
  assert.deepEqual(way('bathProduct', 'glutaraldehyde-2'), {
    recalls: [{ of: 'bath:2', since: null }],
    without: 'solution',
  })
})

test('a way of working has no recall, nor has what belongs to the operation alone', () => {
  assert.equal(way('condition', 'washedByHand').without, 'process')
  assert.equal(way('condition', 'longOperation').without, 'case')
})

test('every kind of suspect has a recall or a reason why not', () => {
  for (const type of exposureTypes) {
    const { recalls, without } = way(type, type === 'steriliser' ? 'machine:a' : `${type}:1`)
    assert.ok(recalls.length > 0 || without !== null, type)
  }
})
