import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { Celsius } from '#units/quantities.ts'
import { cleanAndDry, handWash } from '../../tests/support/road-history-parts.ts'
import { RoadUnit } from '../../tests/support/road-unit.ts'
import type { EntryId, SiteId } from './entry.ts'
import { instant, millis } from './instant.ts'
import type { SubjectId } from './subject.ts'
import { factsOfWaiting } from './storing/facts-of-waiting.ts'
import { packsInDoubt } from './storing/packs-in-doubt.ts'

interface Story {
  readonly unit: RoadUnit
  readonly round: SubjectId<'round'>
}

interface InLoad extends Story {
  readonly load: SubjectId<'load'>
}

async function stored(): Promise<InLoad> {
  const unit = await RoadUnit.open()
  await unit.airRemoval()
  const round = await unit.pack('a')
  const load = await unit.load('one', [round])
  assert.equal((await unit.release(load, [round])).kept, true)
  await unit.say('pack-stored', { round, place: 'shelf' })
  return { unit, round, load }
}

async function doubts({ unit, round }: Story): Promise<readonly string[]> {
  const rounds = [...(await unit.record.known([round])).values()]
  const found = (await packsInDoubt(unit.record, rounds, unit.now)).get(round) ?? []
  return [...new Set(found.map((each) => each.rule))]
}

const last = ({ unit }: Story, kind: string): EntryId => {
  const found = unit.record.entries.findLast((entry) => entry.kind === kind)
  assert.ok(found)
  return found.id
}

test('a pack on the shelf whose proof stands is in no doubt', async () => {
  assert.deepEqual(await doubts(await stored()), [])
})

const changes: readonly (readonly [string, string, (story: InLoad) => Promise<unknown>])[] = [
  [
    'the cycle is corrected to not met',
    'released-still-proven',
    async (story) => {
      const id = last(story, 'cycle-logged')
      const logged = story.unit.record.entries.find((entry) => entry.id === id)
      assert.ok(logged?.kind === 'cycle-logged')
      const body = { ...logged.body, report: { ...logged.body.report, verdict: 'notMet' as const } }
      await story.unit.say('cycle-logged', body, { corrects: id })
    },
  ],
  ['the air-removal test fails later that day', 'released-still-proven', ({ unit }) => unit.airRemoval('failed')],
  [
    'an indicator of the load is read as failed',
    'released-still-proven',
    ({ unit, load }) => unit.say('chemical-read', { load, where: 'challengeDevice', type: '5', result: 'failed' }),
  ],
  [
    'the load is moved to a machine that is no steriliser',
    'released-still-proven',
    async (story) => {
      const { unit, load, round } = story
      await unit.say('machine-registered', {
        machine: 'machine:washer',
        name: 'Washer',
        type: 'washer',
        airRemoval: 'none',
        chamberLitres: 200,
        programs: ['134'],
      })
      const built = unit.record.entries.findLast((entry) => entry.kind === 'load-built')
      assert.ok(built?.kind === 'load-built' && built.body.load === load && built.body.rounds.includes(round))
      // At the time that it had: the decision came after it and still names this load.
      const id = '019e0000-0000-7000-8000-0000000000aa' as EntryId
      unit.record.keep({ ...built, id, corrects: built.id, body: { ...built.body, machine: 'machine:washer' } })
    },
  ],
  ['its biological indicator grows', 'opened-under-no-recall', ({ unit, load }) => unit.read(load, 'growth')],
]

for (const [name, rule, change] of changes) {
  test(`a pack on the shelf is in doubt once ${name}`, async () => {
    const story = await stored()
    await change(story)
    const found = await doubts(story)
    assert.ok(found.includes(rule), found.join(', '))
  })
}

/** Three good tests with the program of the load, and as many air-removal tests. */
async function prove(unit: RoadUnit, name: string, program = '134'): Promise<void> {
  for (const number of [1, 2, 3]) {
    await unit.airRemoval()
    const story = { purpose: 'qualification', biological: 'negative', program, outside: null } as const
    await unit.load(`${name}-${number}`, [], story)
  }
}

/** A major repair of an earlier moment that is entered now. */
function repairedAt({ unit }: Story, happenedAt: string, id = '019e0000-0000-7000-8000-0000000000d1'): void {
  const body = { machine: 'machine:vac', what: 'New door seal', major: true } as const
  const head = { site: 'unit-a' as SiteId, by: 'person:ann', workstation: 'bench' } as const
  unit.record.keep({
    ...head,
    id: id as EntryId,
    kind: 'machine-repaired',
    happenedAt: instant(Date.parse(happenedAt)),
    body,
  })
}

test('a major repair that is entered late puts in doubt what ran and was released since, until its cycle type is proven', async () => {
  const story = await stored()
  const { unit, round } = story
  const built = unit.record.entries.findLast((entry) => entry.kind === 'load-built')
  assert.ok(built)
  const justBefore = instant(millis(built.happenedAt) - 60_000)
  repairedAt(story, justBefore)
  assert.deepEqual(await doubts(story), ['released-still-proven'])
  const again = await unit.say('pack-stored', { round, place: 'shelf 2' })
  assert.ok(again.findings.some((each) => each.rule === 'released-still-proven' && /134 is not proven/.test(each.says)))
  // Another cycle type proves nothing of this one.
  await prove(unit, 'other', '121')
  assert.deepEqual(await doubts(story), ['released-still-proven'])
  await prove(unit, 'own')
  assert.deepEqual(await doubts(story), [])
})

test('a major repair that is entered late leaves alone what ran before it', async () => {
  const story = await stored()
  repairedAt(story, story.unit.now)
  assert.deepEqual(await doubts(story), [])
})

test('what was proven after a second major repair proves nothing of what ran between the two', async () => {
  const story = await stored()
  const { unit } = story
  const built = unit.record.entries.findLast((entry) => entry.kind === 'load-built')
  assert.ok(built)
  repairedAt(story, instant(millis(built.happenedAt) - 60_000))
  await unit.say('machine-repaired', { machine: 'machine:vac', what: 'New pump', major: true })
  await prove(unit, 'later')
  assert.deepEqual(await doubts(story), ['released-still-proven'])
})

/** Released after 14 h of aeration at 55 °C, where the default asks for 12 h. */
async function aerated(): Promise<InLoad> {
  const unit = await RoadUnit.open()
  await unit.say('machine-registered', {
    machine: 'machine:gas',
    name: 'Gas',
    type: 'ethyleneOxideSteriliser',
    airRemoval: 'none',
    chamberLitres: 120,
    programs: ['gas'],
  })
  await unit.say('device-registered', {
    device: 'device:d',
    name: 'Cable',
    contact: 'critical',
    steam: 'barred',
    makerMethods: [{ method: 'ethyleneOxide' }],
    lumens: [],
    parts: 1,
    insulated: false,
    optic: false,
    singleUse: false,
  })
  const round = await unit.pack('a', { material: 'synthetic' })
  const load = await unit.load('gas', [round], { machine: 'machine:gas', program: 'gas', biological: 'negative' })
  await unit.say('aeration-started', { load, place: 'aerator', setC: 55 as Celsius })
  unit.wait(14)
  await unit.say('aeration-ended', { load, lowestC: 55 as Celsius })
  const answer = await unit.release(load, [round])
  assert.equal(answer.kept, true, JSON.stringify(answer.findings))
  return { unit, round, load }
}

test('a pack is in doubt once its aeration turns out to have been too short', async () => {
  const story = await aerated()
  assert.deepEqual(await doubts(story), [])
  const ended = story.unit.record.entries.findLast((entry) => entry.kind === 'aeration-ended')
  assert.ok(ended)
  const id = '019e0000-0000-7000-8000-0000000000ab' as EntryId
  const early = instant(millis(ended.happenedAt) - 4 * 3_600_000)
  story.unit.record.keep({ ...ended, id, corrects: ended.id, happenedAt: early })
  assert.deepEqual(await doubts(story), ['released-still-proven'])
})

test('a pack is in doubt once its aeration turns out to have been interrupted', async () => {
  const story = await aerated()
  const ended = story.unit.record.entries.findLast((entry) => entry.kind === 'aeration-ended')
  assert.ok(ended)
  const id = '019e0000-0000-7000-8000-0000000000ac' as EntryId
  const during = instant(millis(ended.happenedAt) - 4 * 3_600_000)
  const body = { load: story.load, cause: 'power' as const }
  story.unit.record.keep({ ...ended, id, kind: 'aeration-stopped', body, happenedAt: during })
  assert.deepEqual(await doubts(story), ['released-still-proven'])
})

/** A set of a telescope that came ready for use from a bath, with a passed strip of its own. */
async function ready(): Promise<Story> {
  const unit = await RoadUnit.open()
  const round = 'round:scope' as const
  const device = { device: 'device:scope', name: 'Telescope', contact: 'semiCritical', steam: 'barred' } as const
  const form = { lumens: [], parts: 1, insulated: false, optic: true, singleUse: false }
  await unit.say('device-registered', { ...device, ...form, makerMethods: [{ method: 'bathDisinfect' }] })
  const countSheet = [{ device: device.device, count: 1 }]
  await unit.say('set-registered', { set: 'set:scope', name: 'Scope', countSheet })
  await unit.say('reprocessing-started', { round, set: 'set:scope', because: 'newSet' })
  await unit.say('wash-recorded', { wash: 'wash:scope', rounds: [round], how: handWash })
  await unit.say('inspected', { round, ...cleanAndDry })
  const later = instant(millis(unit.now) + 10 * 86_400_000)
  const product = 'ortho-phthalaldehyde-0.55' as const
  const controls = { fullStrength: { tried: 3, passed: 3 }, halfStrength: { tried: 3, failed: 3 } }
  const bottle = { lot: 'lot:strips', product, number: 's1', expiresAt: later, discardAt: later } as const
  await unit.say('strip-bottle-opened', { ...bottle, ...controls })
  const can = { lot: 'lot:can', place: 'Wash room', litres: 8, activatedAt: unit.now, expiresAt: later } as const
  await unit.say('bath-poured', { bath: 'bath:b', product, ...can })
  await unit.say('bath-warmed', { bath: 'bath:b', celsius: 20 as Celsius })
  await unit.say('strip-read', { bath: 'bath:b', lot: 'lot:strips', result: 'pass', readAfterSeconds: 80 })
  const immersion = 'immersion:one' as const
  const seen = { fullyImmersed: true, lumensFilled: true, cleanedAndDry: true, implant: false } as const
  const started = { immersion, rounds: [round], bath: 'bath:b', how: 'manual', claim: 'disinfect' } as const
  await unit.say('immersion-started', { ...started, rounds: [round], mycobacteriaSuspected: false, ...seen })
  unit.wait(0.25)
  await unit.say('immersion-ended', { immersion })
  const rinse = {
    water: 'sterile',
    alcoholAndAir: false,
    outlet: 'Sink 1',
    minutes: 1,
    litres: 8,
    lumenMillilitres: 100,
  } as const
  await unit.say('bath-rinsed', { immersion, ...rinse })
  await unit.say('bath-rinsed', { immersion, ...rinse })
  await unit.say('bath-rinsed', { immersion, ...rinse })
  const outcome = { outcome: 'readyForUse', urological: false, bladderCancer: 'notKnown' } as const
  const answer = await unit.say('immersion-decided', { immersion, rounds: [round], ...outcome })
  assert.equal(answer.kept, true, JSON.stringify(answer.findings))
  return { unit, round }
}

test('a set from a bath is in doubt once its strip is corrected to failed and the bath recalled', async () => {
  const story = await ready()
  const { unit } = story
  assert.deepEqual(await doubts(story), [])
  const read = unit.record.entries.findLast((entry) => entry.kind === 'strip-read')
  assert.ok(read?.kind === 'strip-read')
  const id = '019e0000-0000-7000-8000-0000000000ac' as EntryId
  unit.record.keep({ ...read, id, corrects: read.id, body: { ...read.body, result: 'fail' } })
  const recalled = { recall: 'recall:b', bath: 'bath:b', why: 'The strip had failed', wholeBath: false } as const
  await unit.say('bath-recalled', recalled)
  assert.deepEqual(await doubts(story), ['treated-still-proven', 'opened-under-no-recall'])
})

test('a strip that fails later leaves a set alone for which its own strip speaks; a fault of the whole bath does not', async () => {
  const story = await ready()
  const { unit } = story
  await unit.say('strip-read', { bath: 'bath:b', lot: 'lot:strips', result: 'fail', readAfterSeconds: 80 })
  const recalled = { recall: 'recall:b', bath: 'bath:b', why: 'The strip failed' } as const
  await unit.say('bath-recalled', { ...recalled, wholeBath: false })
  assert.deepEqual(await doubts(story), [])
  await unit.say('bath-recalled', { ...recalled, recall: 'recall:whole', wholeBath: true })
  assert.deepEqual(await doubts(story), ['opened-under-no-recall'])
})

test('what was not gathered for waiting packs is a mistake of ours, never an empty answer', async () => {
  const { unit, round, load } = await stored()
  const opened = await unit.say('recall-opened', { recall: 'recall:one', load, why: 'A notice', defectProven: true })
  assert.equal(opened.kept, true)
  const facts = await factsOfWaiting(unit.record, [...(await unit.record.known([round])).values()], unit.now)
  assert.deepEqual(facts.recallsOfMachine('machine:vac'), ['recall:one'])
  assert.equal(facts.known('set:a')?.name, 'a')
  assert.throws(() => facts.loadsSinceStop('machine:vac'), /Invariant failed: the loads since/)
  assert.throws(() => facts.lastBiological('machine:vac'), /Invariant failed: the last biological/)
  assert.throws(() => facts.known('device:d'), /Invariant failed: a device is not gathered/)
  assert.throws(() => facts.known('load:another'), /Invariant failed: load:another is not gathered/)
})
