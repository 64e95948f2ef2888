import assert from 'node:assert/strict'
import { test } from 'node:test'
import { against, RoadUnit } from '../../tests/support/road-unit.ts'
import { type Instant, instant, millis } from './instant.ts'
import { cleanAndDry, handWash } from '../../tests/support/road-history-parts.ts'
import type { EntryId } from './entry.ts'
import type { KindName, TypedSent } from './kinds.ts'
import { roundStanding } from './round.ts'
import type { SubjectId } from './subject.ts'

/*
 * A pack is shown as released only as long as the load that it is in was released: no order of arrival, late entry or
 * correction leaves a release behind. Rules: 'decided-in-order', 'released-still-proven', 'decided-of-its-load',
 * 'release-from-working-machine', 'release-cycle-met'.
 */

interface Released {
  readonly unit: RoadUnit
  readonly round: SubjectId<'round'>
  readonly load: SubjectId<'load'>
  readonly releasedAt: Instant
  readonly standing: () => Promise<string>
  readonly idOf: (kind: KindName) => EntryId
}

async function released(): Promise<Released> {
  const unit = await RoadUnit.open()
  await unit.airRemoval()
  const round = await unit.pack('a')
  const load = await unit.load('one', [round])
  unit.wait(1)
  assert.equal((await unit.release(load, [round])).kept, true)
  const standing = async (): Promise<string> => {
    const state = (await unit.record.known([round])).get(round)
    assert.ok(state)
    return roundStanding(state)
  }
  assert.equal(await standing(), 'released')
  const idOf = (kind: KindName): EntryId => {
    const found = unit.record.entries.findLast((entry) => entry.kind === kind)
    assert.ok(found)
    return found.id
  }
  return { unit, round, load, releasedAt: unit.now, standing, idOf }
}

const buildOf = (load: SubjectId<'load'>, rounds: readonly SubjectId<'round'>[], machine = 'machine:vac' as const) => ({
  load,
  machine,
  program: '134',
  purpose: 'goods' as const,
  rounds: [...rounds],
})

/** Keeps an entry of another time than now. */
function keepAt(unit: RoadUnit, at: Instant, entry: Pick<TypedSent, 'kind' | 'body'>): void {
  const head = { id: '019e0000-0000-7000-8000-0000000000aa', site: 'unit-a', by: 'person:ann', workstation: 'bench' }
  unit.record.keep({ ...head, happenedAt: at, ...entry } as unknown as TypedSent)
}

async function opening({ unit, round }: Released): Promise<readonly string[]> {
  await unit.say('case-booked', {
    case: 'case:c',
    patient: 'P',
    procedure: 'X',
    theatre: 'T',
    plannedAt: unit.now,
    surgeon: 'person:sam',
    implantPlanned: false,
  })
  const turned = { outsideIndicator: 'changed', insideIndicator: 'changed', condition: 'intact' } as const
  return against((await unit.say('pack-opened', { round, case: 'case:c', ...turned })).findings)
}

test('a load built between the cycle and the release, entered late, takes the release away', async () => {
  const story = await released()
  const between = instant(millis(story.releasedAt) - 30 * 60_000)
  keepAt(story.unit, between, { kind: 'load-built', body: buildOf('load:two', [story.round]) })
  assert.equal(await story.standing(), 'inLoad')
  assert.deepEqual(await opening(story), ['opened-released'])
})

test('a release of the old load timed after the pack went into another does not count', async () => {
  const story = await released()
  await story.unit.say('load-built', buildOf('load:two', [story.round]))
  const body = { load: story.load, packs: [{ round: story.round, outcome: 'released' as const }] }
  keepAt(story.unit, instant(millis(story.unit.now) + 60_000), { kind: 'load-decided', body })
  assert.equal(await story.standing(), 'inLoad')
})

test('a load corrected to one without the pack, or to another load, leaves no release behind', async () => {
  const without = await released()
  await without.unit.say('load-built', buildOf(without.load, []), { corrects: without.idOf('load-built') })
  assert.equal(await without.standing(), 'sealed')
  const other = await released()
  await other.unit.say('load-built', buildOf('load:two', [other.round]), { corrects: other.idOf('load-built') })
  assert.equal(await other.standing(), 'inLoad')
})

test('an indicator of the pack that is read as failed after the release sends it back to wait', async () => {
  const story = await released()
  const read = { load: story.load, where: 'insidePack', type: '5', result: 'failed', rounds: [story.round] } as const
  await story.unit.say('chemical-read', { ...read, rounds: [story.round] })
  assert.equal(await story.standing(), 'quarantined')
  assert.deepEqual(await opening(story), ['released-still-proven'])
})

test('a released pack that is washed again is released no more', async () => {
  const story = await released()
  await story.unit.say('wash-recorded', { wash: 'wash:again', rounds: [story.round], how: handWash })
  await story.unit.say('inspected', { round: story.round, ...cleanAndDry })
  assert.notEqual(await story.standing(), 'released')
  assert.deepEqual(await opening(story), ['opened-released'])
})

test('opening and storing alarm when what released the pack was withdrawn or corrected', async () => {
  const changes: readonly ((story: Released) => Promise<unknown>)[] = [
    ({ unit, idOf }) => unit.say('entry-withdrawn', { why: 'wrong log' }, { corrects: idOf('cycle-logged') }),
    ({ unit, idOf }) => unit.say('entry-withdrawn', { why: 'not read' }, { corrects: idOf('chemical-read') }),
    ({ unit, idOf }) => unit.say('entry-withdrawn', { why: 'not sealed' }, { corrects: idOf('pack-sealed') }),
    ({ unit, idOf }) => unit.say('entry-withdrawn', { why: 'other day' }, { corrects: idOf('air-removal-tested') }),
    ({ unit }) => unit.airRemoval('failed'),
    ({ unit, load }) => unit.say('chemical-read', { load, where: 'challengeDevice', type: '5', result: 'failed' }),
  ]
  for (const change of changes) {
    const story = await released()
    await change(story)
    const stored = await story.unit.say('pack-stored', { round: story.round, place: 'shelf' })
    assert.ok(against(stored.findings).includes('released-still-proven'), String(change))
    assert.ok((await opening(story)).includes('released-still-proven'), String(change))
  }
  const sound = await released()
  assert.deepEqual(await opening(sound), [])
})

test('a pack corrected to hold an implant after its release is not opened without a biological result', async () => {
  const story = await released()
  const sealed = story.unit.record.entries.findLast((entry) => entry.kind === 'pack-sealed')
  assert.ok(sealed?.kind === 'pack-sealed')
  await story.unit.say('pack-sealed', { ...sealed.body, implant: true }, { corrects: sealed.id })
  assert.deepEqual(await opening(story), ['released-still-proven'])
})

test('a rejection timed before the release that stands is refused, since it would change nothing', async () => {
  const story = await released()
  const early = {
    id: '019e0000-0000-7000-8000-0000000000bb',
    site: 'unit-a',
    kind: 'load-decided',
    happenedAt: instant(millis(story.releasedAt) - 60_000),
    by: 'person:ann',
    workstation: 'bench',
    body: { load: story.load, packs: [{ round: story.round, outcome: 'rejected' }] },
  } as unknown as TypedSent
  const answer = await story.unit.record.decide(early, story.unit.now)
  assert.equal(answer.kept, false)
  assert.deepEqual(against(answer.findings), ['decided-in-order'])
})

test('one decision cannot name a pack twice', async () => {
  const { unit, load, round } = await released()
  const packs = [
    { round, outcome: 'rejected' as const },
    { round, outcome: 'released' as const },
  ]
  const answer = await unit.say('load-decided', { load, packs })
  assert.deepEqual(against(answer.findings), ['decided-of-its-load'])
})

test('nothing is released from a washer, nor on a log of another year', async () => {
  const unit = await RoadUnit.open()
  await unit.airRemoval()
  await unit.say('machine-registered', {
    machine: 'machine:washer',
    name: 'Washer',
    type: 'washer',
    airRemoval: 'none',
    chamberLitres: 200,
    programs: ['134'],
  })
  const round = await unit.pack('w')
  const washed = await unit.load('washed', [round], { machine: 'machine:washer' })
  assert.deepEqual(against((await unit.release(washed, [round])).findings), ['release-from-working-machine'])

  const other = await unit.pack('o')
  const old = await unit.load('old', [other], { machine: 'machine:grav' })
  const logged = unit.record.entries.findLast((entry) => entry.kind === 'cycle-logged')
  assert.ok(logged?.kind === 'cycle-logged')
  const aYear = 365 * 86_400_000
  const body = {
    ...logged.body,
    startedAt: instant(millis(logged.body.startedAt) - aYear),
    endedAt: instant(millis(logged.body.endedAt) - aYear),
  }
  await unit.say('cycle-logged', body, { corrects: logged.id })
  assert.deepEqual(against((await unit.release(old, [other])).findings), ['release-cycle-met'])
})

test('what a recall took back stays back when the recall is closed', async () => {
  for (const outcome of ['pulledFromShelf', 'stoppedBeforeUse', 'discarded'] as const) {
    const story = await released()
    const { unit, round, load } = story
    await unit.say('pack-stored', { round, place: 'shelf' })
    assert.equal(await story.standing(), 'onShelf')
    const recall = 'recall:one' as const
    await unit.say('recall-opened', { recall, load, why: 'drain blocked', defectProven: true })
    await unit.say('recall-accounted', { recall, round, outcome })
    await unit.say('machine-withdrawn', { machine: 'machine:vac', why: 'drain blocked' })
    assert.equal((await unit.say('recall-closed', { recall, cause: 'drain blocked', action: 'cleaned' })).kept, true)
    assert.equal(await story.standing(), 'quarantined')
    const stored = await unit.say('pack-stored', { round, place: 'shelf' })
    assert.deepEqual(against(stored.findings), ['stored-under-no-recall'])
    assert.deepEqual(against((await unit.release(load, [round])).findings), ['release-under-no-recall'])
    assert.deepEqual(await opening(story), ['opened-under-no-recall'])
  }
})

test('a pack taken back in a recall that was opened by mistake may be released anew', async () => {
  const story = await released()
  const { unit, round, load, idOf } = story
  const recall = 'recall:one' as const
  await unit.say('recall-opened', { recall, load, why: 'drain blocked', defectProven: true })
  await unit.say('recall-accounted', { recall, round, outcome: 'pulledFromShelf' })
  await unit.say('entry-withdrawn', { why: 'wrong load' }, { corrects: idOf('recall-opened') })
  assert.equal(await story.standing(), 'quarantined')
  assert.equal((await unit.release(load, [round])).kept, true)
  assert.equal(await story.standing(), 'released')
  assert.deepEqual(await opening(story), [])
})

test('a rejection that is withdrawn or corrected away leaves the pack to be decided again, not released', async () => {
  const rejected = async (): Promise<Released> => {
    const story = await released()
    const packs = [{ round: story.round, outcome: 'rejected' as const, why: 'wet' }]
    assert.equal((await story.unit.say('load-decided', { load: story.load, packs })).kept, true)
    assert.equal(await story.standing(), 'rejected')
    return story
  }
  const withdrawn = await rejected()
  const { unit, idOf, load, round } = withdrawn
  await unit.say('entry-withdrawn', { why: 'wrong pack' }, { corrects: idOf('load-decided') })
  assert.equal(await withdrawn.standing(), 'inLoad')
  assert.equal((await unit.record.known([load])).get(load)?.decision, null)
  assert.equal((await unit.release(load, [round])).kept, true)
  assert.equal(await withdrawn.standing(), 'released')

  const moved = await rejected()
  const other = await moved.unit.pack('b')
  await moved.unit.load('other', [other])
  const packs = [{ round: other, outcome: 'rejected' as const }]
  const id = moved.idOf('load-decided')
  await moved.unit.say('load-decided', { load: 'load:other', packs }, { corrects: id })
  assert.equal(await moved.standing(), 'inLoad')
})

test('a decision corrected in place, also to an earlier time, stands as corrected', async () => {
  const story = await released()
  const packs = [{ round: story.round, outcome: 'released' as const, why: 'all read' }]
  assert.equal(
    (await story.unit.say('load-decided', { load: story.load, packs }, { corrects: story.idOf('load-decided') })).kept,
    true,
  )
  assert.equal(await story.standing(), 'released')
  const earlier = { id: '019e0000-0000-7000-8000-0000000000cc', site: 'unit-a', by: 'person:ann', workstation: 'bench' }
  const happenedAt = instant(millis(story.releasedAt) - 60_000)
  const corrects = story.idOf('load-decided')
  story.unit.record.keep({
    ...earlier,
    kind: 'load-decided',
    happenedAt,
    corrects,
    body: { load: story.load, packs },
  } as unknown as TypedSent)
  assert.equal(await story.standing(), 'released')
})
