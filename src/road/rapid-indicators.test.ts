import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { Celsius } from '#units/quantities.ts'
import { against, RoadUnit } from '../../tests/support/road-unit.ts'
import type { Incubation } from './consumables/entries.ts'
import { instant, millis } from './instant.ts'
import type { Bodies } from './kinds.ts'
import { policyFrom } from './policy.ts'
import { recallExtent } from './tracing/recall-extent.ts'
import { biologicalOutcome, isReadTooEarly } from './sterilising/load-fold.ts'
import { readingDue } from './sterilising/reading-due.ts'
import { wantedIncubation } from './sterilising/wanted-incubation.ts'

/*
 * Rapid indicators are judged by the lot that they come from. Rules: 'biological-incubated', 'release-implant-waits',
 * 'release-early-implant', 'release-biological-valid'. The hours and the warmth are what a maker may print: 1 h at 55 to
 * 60 °C in a reader of its own; by the method (policy default, from ST79) steam needs 24 h at 55 to 60 °C.
 */

const celsius = (from: number, to: number) => ({ from: from as Celsius, to: to as Celsius })
const rapid: Incubation = { hours: 1, temperatureC: celsius(55, 60), reader: 'Reader 2' }

async function open(incubation?: Incubation): Promise<RoadUnit> {
  const unit = await RoadUnit.open()
  await unit.airRemoval()
  const expiresAt = instant(millis(unit.now) + 300 * 86_400_000)
  const lot = { lot: 'lot:b1', of: 'biologicalIndicator', name: 'Spores', number: 'b1', expiresAt } as const
  await unit.say('lot-opened', { ...lot, ...(incubation === undefined ? {} : { incubation }) })
  return unit
}

type Read = Partial<Bodies['biological-read']>

function reading(unit: RoadUnit, over: Read) {
  const control = { lot: 'b1', fromLot: 'lot:b1', result: 'growth' } as const
  const read = { load: 'load:one', lot: 'b1', fromLot: 'lot:b1', result: 'noGrowth', control } as const
  return unit.say('biological-read', { ...read, incubatedHours: 1, ...over })
}

async function judged(unit: RoadUnit) {
  const { record } = unit
  const load = (await record.known(['load:one'])).get('load:one')
  const lots = await record.known(['lot:b1'])
  assert.ok(load)
  const wanted = wantedIncubation(undefined, policyFrom(undefined), (id) => lots.get(id))
  return {
    outcome: biologicalOutcome(load, wanted),
    early: isReadTooEarly(load, wanted),
    due: readingDue(load, wanted),
  }
}

const inReader = { reader: 'reader 2' }
const rows: readonly (readonly [string, Incubation | undefined, Read, string, readonly string[]])[] = [
  ['a rapid lot, in its time and its reader', rapid, inReader, 'negative', []],
  ['a rapid lot, before its time', rapid, { ...inReader, incubatedHours: 0.5 }, 'invalid', ['1 h, by its lot']],
  [
    'hours typed that are not those of the lot',
    rapid,
    { ...inReader, makersHours: 0.3 },
    'invalid',
    ['1 h, by its lot'],
  ],
  ['the hours of the lot, typed as well', rapid, { ...inReader, makersHours: 1 }, 'negative', []],
  ['another reader', rapid, { reader: 'Reader 1' }, 'invalid', ['Reader 2']],
  ['no reader recorded', rapid, {}, 'invalid', ['Reader 2']],
  ['too cold', rapid, { ...inReader, incubatorC: 54 as Celsius }, 'invalid', ['55 to 60 °C']],
  ['too hot', rapid, { ...inReader, incubatorC: 61 as Celsius }, 'invalid', ['55 to 60 °C']],
  [
    'warm enough by the lot',
    { hours: 1, temperatureC: celsius(35, 39) },
    { incubatorC: 37 as Celsius },
    'negative',
    [],
  ],
  [
    'a lot with a warmth, and none recorded',
    { hours: 1, temperatureC: celsius(55, 60) },
    {},
    'invalid',
    ['55 to 60 °C'],
  ],
  ['a lot that tells nothing: the method decides', undefined, {}, 'invalid', ['at least 24 h']],
  ['hours typed for a lot that tells nothing', undefined, { makersHours: 1 }, 'invalid', ['at least 24 h']],
  ['the whole time of the method', undefined, { incubatedHours: 24 }, 'negative', []],
  [
    'the whole time in a cold incubator',
    undefined,
    { incubatedHours: 24, incubatorC: 37 as Celsius },
    'invalid',
    ['55 to 60 °C'],
  ],
  ['a lot that needs longer than the method', { hours: 48 }, { incubatedHours: 24 }, 'invalid', ['48 h, by its lot']],
]

for (const [name, incubation, read, outcome, limits] of rows) {
  test(`given ${name}, when no growth is read, then it is ${outcome}`, async () => {
    const unit = await open(incubation)
    await unit.load('one', [])
    const answer = await reading(unit, read)
    const found = answer.findings.filter((finding) => finding.rule === 'biological-incubated')
    assert.deepEqual(
      found.map((finding) => finding.limit),
      limits,
    )
    assert.ok(found.every((finding) => finding.weight === 'notEvaluable'))
    assert.equal((await judged(unit)).outcome, outcome)
  })

  test(`given ${name}, when growth is read, then it counts`, async () => {
    const unit = await open(incubation)
    await unit.load('one', [])
    const answer = await reading(unit, { ...read, result: 'growth' })
    assert.ok(!answer.findings.some((finding) => finding.rule === 'biological-incubated'))
    assert.equal((await judged(unit)).outcome, 'positive')
    assert.ok(await recallExtent(unit.record, 'recall:one', policyFrom(undefined)))
  })
}

test('given a lot corrected to a longer time, when its readings are looked at again, then they are no pass any more', async () => {
  const unit = await open({ hours: 1 })
  await unit.load('one', [])
  await reading(unit, {})
  assert.equal((await judged(unit)).outcome, 'negative')
  const opened = unit.record.entries.findLast((entry) => entry.kind === 'lot-opened')
  assert.ok(opened?.kind === 'lot-opened')
  await unit.say('lot-opened', { ...opened.body, incubation: { hours: 3 } }, { corrects: opened.id })
  assert.equal((await judged(unit)).outcome, 'invalid')
})

const emergency = {
  implant: 'Mesh',
  emergency: 'Bleeding, no other mesh',
  wouldHavePrevented: 'A second mesh in stock',
}
const exception = { allowedBy: 'person:sam', rules: ['release-implant-waits'], why: 'The patient is bleeding' } as const

test('given an implant whose indicator was read too early, when it is an emergency, then it may go, and the load stays unproven', async () => {
  const unit = await open(rapid)
  const round = await unit.pack('mesh', { implant: true })
  const load = await unit.load('one', [round], { biological: 'pending', type5: 'passed' })
  await reading(unit, { ...inReader, incubatedHours: 0.5 })
  const waits = await unit.release(load, [round])
  assert.deepEqual([waits.kept, against(waits.findings)], [false, ['release-implant-waits']])
  assert.match(waits.findings.map(({ says }) => says).join(' '), /read too early: it proves nothing yet/)
  const without = await unit.release(load, [round], { exception: { ...exception, rules: [...exception.rules] } })
  assert.equal(without.kept, false, 'not without the form')
  const early = { exception: { ...exception, rules: [...exception.rules] }, earlyImplant: emergency }
  const released = await unit.release(load, [round], early)
  assert.equal(released.kept, true, JSON.stringify(released.findings))
  const { outcome, early: isEarly, due } = await judged(unit)
  assert.deepEqual([outcome, isEarly, due?.again], ['invalid', true, true])
  await reading(unit, inReader)
  assert.deepEqual(await judged(unit), { outcome: 'negative', early: false, due: undefined })
})

test('readingDue: after the hours of its lot from the end of the cycle; read too early, after what was missing', async () => {
  const unit = await open(rapid)
  await unit.say('load-built', {
    load: 'load:one',
    machine: 'machine:grav',
    program: '134',
    purpose: 'biologicalTest',
    rounds: [],
    challenge: { biologicalLot: 'b1', biologicalFromLot: 'lot:b1' },
  })
  assert.equal((await judged(unit)).due, undefined, 'its cycle is not over')
  const template = await RoadUnit.open()
  await template.load('two', [], { machine: 'machine:grav' })
  const cycle = template.record.entries.findLast((entry) => entry.kind === 'cycle-logged')
  assert.ok(cycle?.kind === 'cycle-logged')
  const ended = unit.now
  const startedAt = instant(millis(ended) - 40 * 60_000)
  await unit.say('cycle-logged', { ...cycle.body, load: 'load:one', startedAt, endedAt: ended })
  const hour = 3_600_000
  assert.deepEqual((await judged(unit)).due, { load: 'load:one', at: instant(millis(ended) + hour), again: false })
  await reading(unit, { ...inReader, incubatedHours: 0.5 })
  assert.deepEqual((await judged(unit)).due, {
    load: 'load:one',
    at: instant(millis(unit.now) + hour / 2),
    again: true,
  })
  await reading(unit, { result: 'growth', incubatedHours: 0.5 })
  assert.equal((await judged(unit)).due, undefined, 'growth needs no other reading')
})
