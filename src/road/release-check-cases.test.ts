import assert from 'node:assert/strict'
import { test } from 'node:test'
import { against, type LoadStory, RoadUnit } from '../../tests/support/road-unit.ts'
import type { Bodies } from './kinds.ts'
import { airRemovalTestsKept } from './sterilising/machine-fold.ts'

/*
 * The table of release decisions for steam (ST79 and CDC 2008 as collected for this unit), each row through the whole
 * list of rules: what happened, whether an ordinary pack goes, whether an implant goes.
 */

interface Row {
  readonly name: string
  readonly story: LoadStory
  readonly airRemoval?: 'passed' | 'failed' | 'notDone'
  readonly plain: readonly string[]
  readonly implant: readonly string[]
}

const none: readonly string[] = []
const same = (...rules: readonly string[]): Pick<Row, 'plain' | 'implant'> => ({ plain: rules, implant: rules })

const table: readonly Row[] = [
  // R01 and R02: an implant waits, other packs do not.
  { name: 'R01 no indicator in the load', story: {}, plain: none, implant: ['release-implant-waits'] },
  {
    name: 'R02 pending',
    story: { biological: 'pending', type5: 'passed' },
    plain: none,
    implant: ['release-implant-waits'],
  },
  { name: 'R03 negative', story: { biological: 'negative', type5: 'passed' }, plain: none, implant: none },
  {
    name: 'R04 dead control',
    story: { biological: 'deadControl' },
    plain: none,
    implant: ['release-biological-valid'],
  },
  // R08: what is not proven is not released.
  { name: 'R08 no log', story: { biological: 'negative', cycle: null }, ...same('release-cycle-met') },
  { name: 'log not evaluable', story: { biological: 'negative', cycle: 'notEvaluable' }, ...same('release-cycle-met') },
  { name: 'physical failure', story: { biological: 'negative', cycle: 'notMet' }, ...same('release-cycle-met') },
  // R10 and R11: only a steriliser that draws a vacuum needs the test.
  {
    name: 'R10 air removal not tested',
    story: { biological: 'negative' },
    airRemoval: 'notDone',
    ...same('release-after-air-removal-test'),
  },
  {
    name: 'air removal failed',
    story: { biological: 'negative' },
    airRemoval: 'failed',
    ...same('release-after-air-removal-test'),
  },
  {
    name: 'R11 gravity',
    story: { biological: 'negative', machine: 'machine:grav' },
    airRemoval: 'notDone',
    ...same(),
  },
  {
    name: 'outside failed',
    story: { biological: 'negative', outside: 'failed' },
    ...same('release-outside-indicators'),
  },
  {
    name: 'outside missing',
    story: { biological: 'negative', outside: 'missing' },
    ...same('release-outside-indicators'),
  },
  { name: 'outside not read', story: { biological: 'negative', outside: null }, ...same('release-outside-indicators') },
  {
    name: 'challenge device failed',
    story: { biological: 'negative', type5: 'failed' },
    ...same('release-challenge-device'),
  },
  {
    name: 'growth',
    story: { biological: 'growth' },
    ...same('release-no-growth', 'release-under-no-recall'),
  },
  { name: 'a test load', story: { biological: 'negative', purpose: 'retest' }, ...same('release-goods') },
]

for (const row of table) {
  test(`release: ${row.name}`, async () => {
    const unit = await RoadUnit.open()
    if (row.airRemoval !== 'notDone') await unit.airRemoval(row.airRemoval ?? 'passed')
    const plain = await unit.pack('plain')
    const implant = await unit.pack('implant', { implant: true })
    const load = await unit.load('1', [plain, implant], row.story)
    const ofPlain = await unit.release(load, [plain])
    const ofImplant = await unit.release(load, [implant])
    assert.deepEqual(against(ofPlain.findings), row.plain)
    assert.deepEqual(against(ofImplant.findings), row.implant)
    assert.equal(ofPlain.kept, row.plain.length === 0)
    assert.equal(ofImplant.kept, row.implant.length === 0)
    const packs = [plain, implant].map((round) => ({ round, outcome: 'quarantined' as const }))
    assert.ok((await unit.say('load-decided', { load, packs })).kept, 'quarantine needs no proof')
  })
}

const form: NonNullable<Bodies['load-decided']['earlyImplant']> = {
  implant: 'mesh',
  emergency: 'bleeding, no other mesh in the house',
  wouldHavePrevented: 'a second mesh on the shelf',
}
const allowed = (allowedBy: 'person:sam' | 'person:ann') => ({
  allowedBy,
  rules: ['release-implant-waits'],
  why: 'emergency at night',
})

test('R05 and R07 early release of an implant: form, type 5, surgeon; and growth afterwards names the surgeon', async () => {
  const unit = await RoadUnit.open()
  await unit.airRemoval()
  const implant = await unit.pack('implant', { implant: true })
  const load = await unit.load('1', [implant], { biological: 'pending', type5: 'passed' })
  const by = async (...[exception, earlyImplant]: [ReturnType<typeof allowed>?, typeof form?]) => {
    const rest = { ...(exception ? { exception } : {}), ...(earlyImplant ? { earlyImplant } : {}) }
    return await unit.release(load, [implant], rest)
  }
  assert.equal((await by(undefined, form)).kept, false)
  assert.equal((await by(allowed('person:sam'))).kept, false)
  assert.equal((await by(allowed('person:ann'), form)).kept, false)
  const early = await by(allowed('person:sam'), form)
  assert.ok(early.kept)
  assert.ok(early.findings.some((each) => each.rule === 'release-early-implant' && each.weight === 'caution'))
  const growth = await unit.read(load, 'growth')
  assert.ok(growth.kept)
  assert.match(growth.findings.map((each) => each.says).join(' '), /Tell the surgeon and infection control/)
})

test('early release of an implant is refused without a challenge device, and never sets growth aside', async () => {
  const unit = await RoadUnit.open()
  await unit.airRemoval()
  const implant = await unit.pack('implant', { implant: true })
  const bare = await unit.load('1', [implant])
  const rest = { exception: allowed('person:sam'), earlyImplant: form }
  assert.deepEqual(against((await unit.release(bare, [implant], rest)).findings).at(-1), 'release-early-implant')
  const other = await unit.pack('other', { implant: true })
  const grown = await unit.load('2', [other], { biological: 'growth', type5: 'passed' })
  assert.equal((await unit.release(grown, [other], rest)).kept, false)
})

test('R31, R32 a wet or torn pack is rejected; R34 an exception cannot set that aside', async () => {
  const unit = await RoadUnit.open()
  await unit.airRemoval()
  const [wet, torn, dated] = [
    await unit.pack('wet'),
    await unit.pack('torn'),
    await unit.pack('dated', { useBefore: unit.now }),
  ]
  const load = await unit.load('1', [wet, torn, dated])
  await unit.say('pack-condition-noted', { round: wet, condition: 'wet' })
  await unit.say('pack-condition-noted', { round: torn, condition: 'torn' })
  const exception = { allowedBy: 'person:sam' as const, rules: ['release-intact-packs'], why: 'it looks dry to me' }
  assert.deepEqual(against((await unit.release(load, [wet], { exception })).findings), ['release-intact-packs'])
  assert.equal((await unit.release(load, [torn], { exception })).kept, false)
  assert.deepEqual(against((await unit.release(load, [dated])).findings), ['release-in-date'])
})

test('one outside indicator that failed keeps its pack back and lets the others go', async () => {
  const unit = await RoadUnit.open()
  await unit.airRemoval()
  const [good, bad] = [await unit.pack('good'), await unit.pack('bad')]
  const load = await unit.load('1', [good, bad], { outside: null })
  await unit.say('chemical-read', { load, where: 'outsidePack', type: '1', result: 'passed', rounds: [good] })
  await unit.say('chemical-read', { load, where: 'outsidePack', type: '1', result: 'failed', rounds: [bad] })
  assert.ok((await unit.release(load, [good])).kept)
  assert.equal((await unit.release(load, [bad])).kept, false)
})

test('an inside indicator that failed in theatre holds the rest of the load, and the opening itself is kept', async () => {
  const unit = await RoadUnit.open()
  await unit.airRemoval()
  const [opened, rest, late] = [await unit.pack('opened'), await unit.pack('rest'), await unit.pack('late')]
  const load = await unit.load('1', [opened, rest, late])
  assert.ok((await unit.release(load, [opened, rest])).kept)
  const seen = { outsideIndicator: 'changed', insideIndicator: 'notChanged', condition: 'intact' } as const
  await unit.say('case-booked', {
    case: 'case:1',
    patient: 'p1',
    procedure: 'appendectomy',
    theatre: 'one',
    plannedAt: unit.now,
    surgeon: 'person:sam',
    implantPlanned: false,
  })
  const opening = await unit.say('pack-opened', { round: opened, case: 'case:1', ...seen })
  assert.ok(opening.kept)
  assert.deepEqual(against(opening.findings), ['opened-indicators-turned'])
  assert.deepEqual(against((await unit.release(load, [late])).findings), ['release-inside-indicators'])
})

test('a used unreleased pack is kept and alarmed; a decision about a pack of another load is refused', async () => {
  const unit = await RoadUnit.open()
  await unit.airRemoval()
  const [a, b] = [await unit.pack('a'), await unit.pack('b')]
  const load = await unit.load('1', [a])
  await unit.load('2', [b])
  assert.deepEqual(against((await unit.release(load, [b])).findings), ['decided-of-its-load'])
  const store = await unit.say('pack-stored', { round: a, place: 'rack' })
  assert.ok(store.kept)
  assert.deepEqual(against(store.findings), ['stored-released'])
})

test('release-fresh-packs and release-from-working-machine: an opened pack, a load run while out of service', async () => {
  const unit = await RoadUnit.open()
  await unit.airRemoval()
  const [used, before, during] = [await unit.pack('used'), await unit.pack('before'), await unit.pack('during')]
  const first = await unit.load('1', [used, before])
  await unit.say('reprocessing-started', {
    round: 'round:b',
    set: 'set:used',
    because: 'repaired',
    previousRound: used,
  })
  assert.deepEqual(against((await unit.release(first, [used])).findings), ['release-fresh-packs'])
  await unit.say('machine-withdrawn', { machine: 'machine:vac', why: 'door seal' })
  const earlier = await unit.release(first, [before])
  assert.ok(earlier.kept)
  assert.ok(earlier.findings.some((each) => each.rule === 'release-from-working-machine' && each.weight === 'caution'))
  const second = await unit.load('2', [during])
  assert.deepEqual(against((await unit.release(second, [during])).findings), ['release-from-working-machine'])
})

test('an air-removal test that fails later on the same day holds what was run before it', async () => {
  const unit = await RoadUnit.open()
  await unit.airRemoval()
  const pack = await unit.pack('pack')
  const load = await unit.load('1', [pack])
  await unit.airRemoval('failed')
  assert.deepEqual(against((await unit.release(load, [pack])).findings), ['release-after-air-removal-test'])
})

test('what ran after a day of failure is judged by the test of its own day', async () => {
  const unit = await RoadUnit.open()
  await unit.airRemoval('failed')
  unit.wait(24)
  await unit.airRemoval()
  const pack = await unit.pack('pack')
  const load = await unit.load('1', [pack])
  unit.wait(24)
  await unit.airRemoval('failed')
  assert.ok((await unit.release(load, [pack])).kept)
})

test('a pack stays released however many daily tests come after it; a load that was left undecided as long does not go', async () => {
  const unit = await RoadUnit.open()
  await unit.airRemoval()
  const [pack, other] = [await unit.pack('pack'), await unit.pack('other')]
  const load = await unit.load('1', [pack])
  const left = await unit.load('2', [other])
  assert.ok((await unit.release(load, [pack])).kept)
  for (let day = 0; day < airRemovalTestsKept; day += 1) {
    unit.wait(24)
    await unit.airRemoval()
  }
  const stored = await unit.say('pack-stored', { round: pack, place: 'shelf A' })
  assert.ok(!stored.findings.some(({ rule }) => rule === 'released-still-proven'), JSON.stringify(stored.findings))
  assert.ok(against((await unit.release(left, [other])).findings).includes('release-after-air-removal-test'))
})

test('a load whose air-removal test failed is not released once that test is no longer at hand, whatever was decided meanwhile', async () => {
  const unit = await RoadUnit.open()
  await unit.airRemoval('failed')
  const [pack, other] = [await unit.pack('pack'), await unit.pack('other')]
  const load = await unit.load('1', [pack, other])
  const quarantined = await unit.say('load-decided', { load, packs: [{ round: pack, outcome: 'quarantined' }] })
  assert.ok(quarantined.kept)
  for (let day = 0; day < airRemovalTestsKept; day += 1) {
    unit.wait(24)
    await unit.airRemoval()
  }
  for (const each of [pack, other])
    assert.deepEqual(against((await unit.release(load, [each])).findings), ['release-after-air-removal-test'])
})
