import assert from 'node:assert/strict'
import { test } from 'node:test'
import { cycle } from '../../tests/support/road-history-parts.ts'
import { against, RoadUnit } from '../../tests/support/road-unit.ts'
import { instant, millis } from './instant.ts'

/* One run of a steriliser proves one load: the slip of dragging the wrong file must not release packs that never ran. */

async function twoLoads() {
  const unit = await RoadUnit.open()
  await unit.airRemoval()
  const [first, second] = [await unit.pack('first'), await unit.pack('second')]
  await unit.load('a', [first])
  await unit.load('b', [second], { cycle: null })
  const now = millis(unit.now)
  const logOfA = { ...cycle('load:a', '134', [now - 3_000_000, now], 'met'), load: 'load:b' as const }
  const wrong = await unit.say('cycle-logged', logOfA)
  return { unit, first, second, wrong, logOfA }
}

test('the log of another load is kept with an alarm, and neither load is released on it', async () => {
  const { unit, first, second, wrong } = await twoLoads()
  assert.equal(wrong.kept, true)
  assert.deepEqual(against(wrong.findings), ['cycle-of-one-load'])
  for (const [load, pack] of [
    ['load:b', second],
    ['load:a', first],
  ] as const) {
    const decided = await unit.release(load, [pack])
    assert.equal(decided.kept, false)
    assert.deepEqual(against(decided.findings), ['release-on-own-log'])
  }
})

test('once the wrong log is corrected, both loads are released on their own', async () => {
  const { unit, first, second, wrong, logOfA } = await twoLoads()
  const own = { ...logOfA, log: cycle('load:b', '134', [0, 1], 'met').log }
  assert.deepEqual(against((await unit.say('cycle-logged', own, { corrects: wrong.id })).findings), [])
  assert.equal((await unit.release('load:b', [second])).kept, true)
  assert.equal((await unit.release('load:a', [first])).kept, true)
})

test('a log that has grown since is no second cycle: the same time on the same machine is the same run', async () => {
  const { unit, first, second, wrong, logOfA } = await twoLoads()
  const ranOnA = unit.record.entries.find((entry) => entry.kind === 'cycle-logged')
  assert.ok(ranOnA?.kind === 'cycle-logged')
  const { startedAt, endedAt } = ranOnA.body
  const grown = { ...logOfA, log: cycle('load:b', '134', [0, 1], 'met').log, startedAt }
  for (const [name, times] of [
    ['the same', { startedAt, endedAt }],
    ['a later end', { startedAt, endedAt: instant(millis(endedAt) + 60_000) }],
    [
      'in the midst of it',
      { startedAt: instant(millis(startedAt) + 60_000), endedAt: instant(millis(endedAt) + 60_000) },
    ],
  ] as const) {
    const said = await unit.say('cycle-logged', { ...grown, ...times }, { corrects: wrong.id })
    assert.deepEqual(against(said.findings), ['cycle-of-one-load'], name)
    for (const [load, pack] of [
      ['load:b', second],
      ['load:a', first],
    ] as const)
      assert.deepEqual(against((await unit.release(load, [pack])).findings), ['release-on-own-log'], name)
  }
  // The next cycle may begin when the last one ends, and the load that ran may have its own log read again.
  const next = { ...grown, startedAt: endedAt, endedAt: instant(millis(endedAt) + 2_400_000) }
  assert.deepEqual(against((await unit.say('cycle-logged', next, { corrects: wrong.id })).findings), [])
  const again = { ...ranOnA.body, log: logOfA.log, endedAt: instant(millis(endedAt) - 1000) }
  assert.deepEqual(against((await unit.say('cycle-logged', again, { corrects: ranOnA.id })).findings), [])
  assert.equal((await unit.release('load:b', [second])).kept, true)
  assert.equal((await unit.release('load:a', [first])).kept, true)
})

test('the cycles of two machines may be at the same time', async () => {
  const { unit, wrong, logOfA } = await twoLoads()
  const ranOnA = unit.record.entries.find((entry) => entry.kind === 'cycle-logged')
  assert.ok(ranOnA?.kind === 'cycle-logged')
  const built = unit.record.entries.findLast((entry) => entry.kind === 'load-built')
  assert.ok(built?.kind === 'load-built')
  await unit.say('load-built', { ...built.body, machine: 'machine:grav' }, { corrects: built.id })
  const { startedAt, endedAt } = ranOnA.body
  const own = { ...logOfA, log: cycle('load:b', '134', [0, 1], 'met').log, startedAt, endedAt }
  assert.deepEqual(against((await unit.say('cycle-logged', own, { corrects: wrong.id })).findings), [])
})

test('two cycles of one file prove two loads', async () => {
  const { unit, second, wrong, logOfA } = await twoLoads()
  const next = { ...logOfA, cycleInLog: 2 }
  assert.deepEqual(against((await unit.say('cycle-logged', next, { corrects: wrong.id })).findings), [])
  assert.equal((await unit.release('load:b', [second])).kept, true)
})
