import assert from 'node:assert/strict'
import { test } from 'node:test'
import { cycle } from '../../tests/support/road-history-parts.ts'
import { against, RoadUnit } from '../../tests/support/road-unit.ts'
import { millis } from './instant.ts'

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

test('two cycles of one file prove two loads', async () => {
  const { unit, second, wrong, logOfA } = await twoLoads()
  const next = { ...logOfA, cycleInLog: 2 }
  assert.deepEqual(against((await unit.say('cycle-logged', next, { corrects: wrong.id })).findings), [])
  assert.equal((await unit.release('load:b', [second])).kept, true)
})
