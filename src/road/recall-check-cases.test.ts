import assert from 'node:assert/strict'
import { test } from 'node:test'
import { cycle } from '../../tests/support/road-history-parts.ts'
import { against, RoadUnit } from '../../tests/support/road-unit.ts'
import { policyFrom } from './policy.ts'
import type { SubjectId } from './subject.ts'
import { recallExtent, recallsTouching } from './tracing/recall-extent.ts'
import { unitPolicy } from './gather.ts'

/* The recall of a steam load, told step by step (CDC 2008, Table 12, and the check cases of this unit). */

async function extentOf(unit: RoadUnit, recall: SubjectId<'recall'>) {
  const known = (await unit.record.known([unitPolicy])).get(unitPolicy)
  const extent = await recallExtent(unit.record, recall, policyFrom(known))
  assert.ok(extent !== undefined)
  return {
    ...extent,
    duties: Object.fromEntries(extent.loads.map(({ load, duty }) => [load.slice(5), duty])),
    packDuties: Object.fromEntries(extent.packs.map(({ round, duty }) => [round.slice(6), duty])),
  }
}

/** Loads 1 to 5 on one day and the next: 1 is good, 3 fails, 2 and 4 are not tested, 5 runs after the failure is read. */
async function failure(over: { readonly cycle?: 'notMet'; readonly good?: boolean } = {}) {
  const unit = await RoadUnit.open()
  await unit.airRemoval()
  const pack = (name: string, implant = false) => unit.pack(name, { implant })
  const [p1, p2, p3, p4] = [await pack('p1'), await pack('p2'), await pack('p3'), await pack('p4')]
  const implant = await pack('mesh', true)
  await unit.load('1', [p1], over.good === false ? {} : { biological: 'negative' })
  await unit.load('2', [p2])
  await unit.load('3', [p3, implant], { biological: 'pending', ...(over.cycle ? { cycle: over.cycle } : {}) })
  await unit.load('4', [p4])
  const read = await unit.read('load:3', 'growth')
  return { unit, read, packs: { p1, p2, p3, p4, implant } }
}

test('R20 growth: the implants of the load are recalled at once, everything since the last good result is held', async () => {
  const { unit, read } = await failure()
  assert.ok(read.findings.some((each) => each.rule === 'biological-grew' && each.weight === 'stop'))
  const extent = await extentOf(unit, 'recall:3')
  assert.equal(extent.lastGood, 'load:1')
  assert.equal(extent.verdict, 'repeatsPending')
  assert.deepEqual(extent.duties, { 2: 'hold', 3: 'hold', 4: 'hold' })
  assert.deepEqual(extent.packDuties, { p2: 'hold', p3: 'hold', mesh: 'recall', p4: 'hold' })
  const touching = await recallsTouching(unit.record, 'load:2', policyFrom(undefined))
  assert.deepEqual(touching, [{ recall: 'recall:3', duty: 'hold' }])
})

test('R17 three good repeats clear all but the implants of the failed load, and the steriliser goes back', async () => {
  const { unit } = await failure()
  await unit.say('machine-withdrawn', { machine: 'machine:vac', why: 'growth' })
  for (const name of ['t1', 't2', 't3']) {
    assert.equal((await unit.say('machine-returned', { machine: 'machine:vac', why: 'too soon' })).kept, false)
    await unit.airRemoval()
    await unit.load(name, [], { purpose: 'retest', biological: 'negative' })
  }
  const extent = await extentOf(unit, 'recall:3')
  assert.equal(extent.verdict, 'clearedByRepeats')
  assert.deepEqual(extent.packDuties, { p2: 'cleared', p3: 'cleared', mesh: 'recall', p4: 'cleared' })
  assert.ok((await unit.say('machine-returned', { machine: 'machine:vac', why: 'proven' })).kept)
})

test('repeats run long after the recall was opened neither clear it nor widen it', async () => {
  const { unit } = await failure()
  unit.wait(31 * 24)
  for (const name of ['t1', 't2', 't3']) await unit.load(name, [], { purpose: 'retest', biological: 'negative' })
  const extent = await extentOf(unit, 'recall:3')
  assert.equal(extent.verdict, 'repeatsPending')
  assert.equal(extent.repeats.good, 0)
})

test('R18 a repeat that fails recalls everything, and its own recall does not ask for the same packs again', async () => {
  const { unit } = await failure()
  await unit.load('t1', [], { purpose: 'retest', biological: 'growth' })
  const extent = await extentOf(unit, 'recall:3')
  assert.equal(extent.verdict, 'everything')
  assert.deepEqual(extent.duties, { 2: 'recall', 3: 'recall', 4: 'recall' })
  const own = await extentOf(unit, 'recall:t1')
  assert.equal(own.coveredBy, 'recall:3')
  assert.deepEqual(own.packs, [])
})

test('R19 a fault in the cycle beside the growth recalls everything', async () => {
  const { unit } = await failure({ cycle: 'notMet' })
  assert.equal((await extentOf(unit, 'recall:3')).verdict, 'everything')
})

test('a proven defect recalls everything without waiting', async () => {
  const { unit } = await failure()
  await unit.say('recall-opened', { recall: 'recall:3', load: 'load:3', why: 'valve found open', defectProven: true })
  assert.deepEqual((await extentOf(unit, 'recall:3')).duties, { 2: 'recall', 3: 'recall', 4: 'recall' })
})

test('R26 without any good result before, it goes back to the first load', async () => {
  const { unit } = await failure({ good: false })
  const extent = await extentOf(unit, 'recall:3')
  assert.equal(extent.lastGood, null)
  assert.deepEqual(Object.keys(extent.duties), ['1', '2', '3', '4'])
})

test('policy: a single failure may recall everything, the failed load always, and results count per program', async () => {
  const change = async (unit: RoadUnit, limit: string) =>
    await unit.say('limit-changed', { policy: 'policy:unit', limit, value: true, reason: 'decided by the unit' })
  const { unit } = await failure()
  await change(unit, 'recall-failed-load-always')
  assert.deepEqual((await extentOf(unit, 'recall:3')).duties, { 2: 'hold', 3: 'recall', 4: 'hold' })
  await change(unit, 'recall-on-single-positive')
  assert.deepEqual((await extentOf(unit, 'recall:3')).duties, { 2: 'recall', 3: 'recall', 4: 'recall' })

  const other = await RoadUnit.open()
  await other.load('1', [], { program: '134', biological: 'negative', purpose: 'biologicalTest' })
  await other.load('2', [await other.pack('p2')], { program: '134' })
  await other.load('3', [await other.pack('p3')], { program: '121', biological: 'negative' })
  await other.load('4', [await other.pack('p4')], { program: '134', biological: 'growth' })
  assert.deepEqual((await extentOf(other, 'recall:4')).lastGood, 'load:3')
  await change(other, 'good-result-per-program')
  const perProgram = await extentOf(other, 'recall:4')
  assert.equal(perProgram.lastGood, 'load:1')
  assert.deepEqual(perProgram.duties, { 2: 'hold', 4: 'hold' })
})

test('a result that is corrected lifts the recall; one that is corrected to growth opens it', async () => {
  const { unit, read } = await failure()
  const wrong = { load: 'load:3', lot: 'b1', control: { lot: 'b1', result: 'growth' }, incubatedHours: 24 } as const
  await unit.say('biological-read', { ...wrong, result: 'noGrowth' }, { corrects: read.id })
  assert.equal(await recallExtent(unit.record, 'recall:3', policyFrom(undefined)), undefined)
  assert.deepEqual(await unit.record.standing('recall', ['open']), [])
})

test('R25 and closing: shelf, patient and reprocessed pack are each accounted for, then it closes', async () => {
  const { unit, packs } = await failure()
  await unit.say('recall-opened', { recall: 'recall:3', load: 'load:3', why: 'valve found open', defectProven: true })
  const booked = { patient: 'p', procedure: 'x', theatre: 'one', plannedAt: unit.now, implantPlanned: false } as const
  await unit.say('case-booked', { case: 'case:1', surgeon: 'person:sam', ...booked })
  const seen = { outsideIndicator: 'changed', insideIndicator: 'changed', condition: 'intact' } as const
  const opened = await unit.say('pack-opened', { round: packs.p2, case: 'case:1', ...seen })
  assert.deepEqual(against(opened.findings), ['opened-released', 'opened-under-no-recall'])
  await unit.say('use-ended', { round: 'round:p2-2', set: 'set:p2', case: 'case:1', previousRound: packs.p2 })
  const used = (await extentOf(unit, 'recall:3')).packs.find((pack) => pack.round === packs.p2)
  assert.deepEqual([used?.place, used?.case], ['over', 'case:1'])

  const close = () =>
    unit.say('recall-closed', { recall: 'recall:3', cause: 'valve stuck open', action: 'valve replaced' })
  assert.deepEqual(against((await close()).findings).toSorted(), ['closed-all-accounted', 'closed-repeats-read'])
  await unit.say('machine-withdrawn', { machine: 'machine:vac', why: 'valve stuck open' })
  assert.deepEqual(against((await close()).findings), ['closed-all-accounted'])
  const account = (round: SubjectId<'round'>, outcome: 'pulledFromShelf' | 'patientToBeFollowed' | 'discarded') =>
    unit.say('recall-accounted', { recall: 'recall:3', round, outcome })
  assert.deepEqual(against((await account(packs.p2, 'pulledFromShelf')).findings), ['accounted-fits'])
  await account(packs.p3, 'pulledFromShelf')
  await account(packs.p4, 'discarded')
  await account(packs.implant, 'pulledFromShelf')
  assert.deepEqual(against((await close()).findings), ['closed-outcomes-fit'])
  await account(packs.p2, 'patientToBeFollowed')
  assert.ok((await close()).kept)
  assert.equal((await extentOf(unit, 'recall:3')).standing, 'closed')
})

test('a recall waits for its repeats as long as packs are held for them', async () => {
  const { unit, packs } = await failure()
  for (const round of Object.values(packs)) {
    if (round !== packs.p1)
      await unit.say('recall-accounted', { recall: 'recall:3', round, outcome: 'pulledFromShelf' })
  }
  const closing = await unit.say('recall-closed', { recall: 'recall:3', cause: 'unknown', action: 'none yet' })
  assert.deepEqual(against(closing.findings), ['closed-repeats-read'])
})

test('the window ends when the steriliser is proven again, not when it is put back', async () => {
  const { unit } = await failure()
  await unit.load('5', [await unit.pack('p5')])
  for (const name of ['t1', 't2', 't3']) await unit.load(name, [], { purpose: 'retest', biological: 'negative' })
  await unit.load('6', [await unit.pack('p6')])
  assert.deepEqual(Object.keys((await extentOf(unit, 'recall:3')).duties), ['2', '3', '4', '5'])
})

test('a load that was built before the last good one but ran after it is found, also across a page of the walk', async () => {
  const unit = await RoadUnit.open()
  await unit.airRemoval()
  const late = await unit.load('late', [await unit.pack('late')], { cycle: null })
  await unit.load('good', [], { purpose: 'biologicalTest', biological: 'negative' })
  for (let number = 0; number < 22; number += 1) await unit.load(`n${number}`, [])
  await unit.load('failed', [await unit.pack('failed')], { biological: 'growth' })
  assert.deepEqual(Object.keys((await extentOf(unit, 'recall:failed')).duties), ['failed'])
  const ended = Date.parse(unit.now)
  await unit.say('cycle-logged', { ...cycle(late, '134', [ended - 12 * 3_600_000, ended - 11 * 3_600_000], 'met') })
  assert.deepEqual(Object.keys((await extentOf(unit, 'recall:failed')).duties), ['late', 'failed'])
})

test('R22 another method than steam: one failure recalls to the next good result, without waiting for repeats', async () => {
  const unit = await RoadUnit.open()
  const machine = 'machine:heat'
  const heat = {
    name: 'heat',
    type: 'dryHeatSteriliser',
    airRemoval: 'none',
    chamberLitres: 60,
    programs: ['160'],
  } as const
  await unit.say('machine-registered', { machine, ...heat, programs: [...heat.programs] })
  const run = async (name: string, biological?: 'negative' | 'growth') =>
    await unit.load(name, [await unit.pack(name)], { machine, program: '160', ...(biological ? { biological } : {}) })
  await run('11', 'negative')
  await run('12', 'growth')
  await run('13')
  await run('14', 'negative')
  await run('15')
  const extent = await extentOf(unit, 'recall:12')
  assert.equal(extent.verdict, 'everything')
  assert.equal(extent.lastGood, 'load:11')
  assert.deepEqual(extent.duties, { 12: 'recall', 13: 'recall' })
})

test('closing a recall of another method than steam waits for the repeats while the steriliser is in service', async () => {
  const unit = await RoadUnit.open()
  const machine = 'machine:heat'
  const type = 'dryHeatSteriliser' as const
  const heat = { name: 'heat', type, airRemoval: 'none' as const, chamberLitres: 60, programs: ['160'] }
  await unit.say('machine-registered', { machine, ...heat })
  const round = await unit.pack('p')
  await unit.load('12', [round], { machine, program: '160', biological: 'growth' })
  const recall = 'recall:12'
  await unit.say('recall-accounted', { recall, round, outcome: 'pulledFromShelf' })
  const close = async () => await unit.say('recall-closed', { recall, cause: 'unknown', action: 'repeated' })
  assert.deepEqual(against((await close()).findings), ['closed-repeats-read'])
  const retest = { machine, program: '160', purpose: 'retest', biological: 'negative' } as const
  for (const name of ['t1', 't2']) await unit.load(name, [], retest)
  assert.deepEqual(against((await close()).findings), ['closed-repeats-read'])
  await unit.load('t3', [], retest)
  assert.ok((await close()).kept)
})

test('a fault with a known beginning recalls every load since then, whatever indicators showed', async () => {
  const { unit } = await failure()
  const beginning = unit.now
  await unit.load('5', [await unit.pack('p5')], { biological: 'negative' })
  await unit.load('6', [await unit.pack('p6')])
  await unit.load('7', [await unit.pack('p7')], { biological: 'negative' })
  const why = 'sensor drifted since its last good calibration'
  await unit.say('recall-opened', { recall: 'recall:6', load: 'load:6', why, defectProven: false, since: beginning })
  const extent = await extentOf(unit, 'recall:6')
  assert.equal(extent.verdict, 'everything')
  assert.equal(extent.lastGood, null)
  assert.deepEqual(extent.duties, { 5: 'recall', 6: 'recall', 7: 'recall' })
  for (const name of ['t1', 't2', 't3']) await unit.load(name, [], { purpose: 'retest', biological: 'negative' })
  await unit.load('8', [await unit.pack('p8')])
  assert.deepEqual(Object.keys((await extentOf(unit, 'recall:6')).duties), ['5', '6', '7'])
})
