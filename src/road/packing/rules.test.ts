import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { Bodies } from '../kinds.ts'
import { at, entered, findingsOf, knownAs, step } from '../rule-harness.ts'
import { packedAfterInspection } from './rules/packed-after-inspection.ts'
import { packedAfterWash } from './rules/packed-after-wash.ts'
import { packedForSteam } from './rules/packed-for-steam.ts'
import { packedLightEnough } from './rules/packed-light-enough.ts'
import { packedOnItsRound } from './rules/packed-on-its-round.ts'
import { packedWithCount } from './rules/packed-with-count.ts'
import { packedWithInsideIndicator } from './rules/packed-with-inside-indicator.ts'
import { packedWithInsulationTested } from './rules/packed-with-insulation-tested.ts'
import { packedWithOutsideIndicator } from './rules/packed-with-outside-indicator.ts'
import { packedWithoutSingleUse } from './rules/packed-without-single-use.ts'

const hook = knownAs('device', 'device:hook', { name: 'Hook', steam: 'allowed', insulated: true })
const set = knownAs('set', 'set:a', {
  name: 'Lap A',
  countSheet: [{ device: 'device:hook', count: 2 }],
  round: { id: 'round:a', began: at('09:00') },
})
const seen = { cleanliness: 'clean', magnified: true, function: 'works', insulation: 'passed', dry: true } as const
const ready = knownAs('round', 'round:a', {
  set: 'set:a',
  wash: step('10:00', { id: 'wash:1' as const, how: null as never }),
  inspection: step('11:00', seen),
})
const known = [hook, set, ready]
const seal = (body: Partial<Bodies['pack-sealed']> = {}) =>
  entered('pack-sealed', {
    round: 'round:a',
    wrap: 'wrap',
    insideIndicator: { type: '5', lot: 'c1' },
    outsideIndicator: { type: '1', lot: 'c2' },
    counted: [{ device: 'device:hook', count: 2 }],
    implant: false,
    ...body,
  })

test('no packing rule speaks against a pack that is as it should be', () => {
  const rules = [
    packedAfterInspection,
    packedAfterWash,
    packedForSteam,
    packedLightEnough,
    packedOnItsRound,
    packedWithCount,
    packedWithInsideIndicator,
    packedWithInsulationTested,
    packedWithOutsideIndicator,
    packedWithoutSingleUse,
  ]
  for (const rule of rules) assert.deepEqual(findingsOf(rule, { known }, seal()), [], rule.id)
})

test('packed-after-wash and packed-after-inspection want both, in that order', () => {
  const dirty = { ...ready, wash: null, inspection: null }
  assert.equal(findingsOf(packedAfterWash, { known: [set, dirty] }, seal())[0]?.weight, 'stop')
  assert.match(findingsOf(packedAfterInspection, { known: [set, dirty] }, seal())[0]?.says ?? '', /not inspected/)
  const soiled = { ...ready, inspection: step('11:00', { ...seen, cleanliness: 'soilSeen' as const }) }
  assert.match(findingsOf(packedAfterInspection, { known: [set, soiled] }, seal())[0]?.says ?? '', /did not pass/)
})

test('packed-with-count names what is missing and may be excepted', () => {
  const [missing] = findingsOf(packedWithCount, { known }, seal({ counted: [{ device: 'device:hook', count: 1 }] }))
  assert.equal(missing?.measured, '1')
  assert.equal(missing?.limit, '2')
  assert.equal(findingsOf(packedWithCount, { known }, seal({ counted: [] })).length, 1)
  const split = [
    { device: 'device:hook' as const, count: 1 },
    { device: 'device:hook' as const, count: 1 },
  ]
  assert.deepEqual(findingsOf(packedWithCount, { known }, seal({ counted: split })), [])
  assert.equal(packedWithCount.exceptionAllowed, true)
})

test('packed-with-insulation-tested wants the test of an insulated device', () => {
  const untested = { ...ready, inspection: step('11:00', { ...seen, insulation: 'notTested' as const }) }
  assert.equal(findingsOf(packedWithInsulationTested, { known: [hook, set, untested] }, seal())[0]?.weight, 'stop')
  const bare = { ...hook, insulated: false }
  assert.deepEqual(findingsOf(packedWithInsulationTested, { known: [bare, set, untested] }, seal()), [])
})

test('packed-with-inside-indicator wants one of an allowed type', () => {
  assert.equal(findingsOf(packedWithInsideIndicator, {}, seal({ insideIndicator: null }))[0]?.weight, 'stop')
  const six = seal({ insideIndicator: { type: '6', lot: 'c' } })
  assert.equal(findingsOf(packedWithInsideIndicator, {}, six)[0]?.limit, 'type 4 or 5')
  assert.deepEqual(findingsOf(packedWithInsideIndicator, { limits: { 'inside-indicator-types': '5, 6' } }, six), [])
})

test('packed-with-outside-indicator, packed-light-enough, packed-without-single-use', () => {
  assert.equal(findingsOf(packedWithOutsideIndicator, {}, seal({ outsideIndicator: null })).length, 1)
  assert.deepEqual(findingsOf(packedLightEnough, { known }, seal({ massKg: 11.3 })), [])
  assert.equal(findingsOf(packedLightEnough, { known }, seal({ massKg: 11.4 }))[0]?.limit, '11.3 kg')
  const single = { ...hook, singleUse: true }
  assert.equal(findingsOf(packedWithoutSingleUse, { known: [single, set, ready] }, seal()).length, 1)
})

test('packed-for-steam: barred stops, no instructions on file is not evaluable', () => {
  const weight = (steam: 'barred' | 'noInstructionsOnFile') =>
    findingsOf(packedForSteam, { known: [knownAs('device', hook.id, { ...hook, steam }), set, ready] }, seal())[0]
  assert.equal(weight('barred')?.weight, 'stop')
  assert.equal(weight('noInstructionsOnFile')?.weight, 'notEvaluable')
  assert.match(weight('noInstructionsOnFile')?.says ?? '', /no instructions for use on file/)
})

test('packed-on-its-round refuses another round and a pack that was in a load', () => {
  const elsewhere = { ...set, round: { id: 'round:b' as const, began: at('09:00') } }
  assert.equal(findingsOf(packedOnItsRound, { known: [elsewhere, ready] }, seal())[0]?.limit, 'round:b')
  const inLoad = { ...ready, load: step('11:30', { id: 'load:1' as const }) }
  assert.match(findingsOf(packedOnItsRound, { known: [set, inLoad] }, seal())[0]?.says ?? '', /has been in a load/)
})
