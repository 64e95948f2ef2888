import assert from 'node:assert/strict'
import { test } from 'node:test'
import { powerCuts } from '../crash/power-cut/power-cuts.ts'

test('SQLite: 100 power cuts lose nothing and leave a store that is sound', async (t) => {
  const size = { bytes: 40_000_000, seconds: 20 }
  const result = await powerCuts({ recordings: 5, cutsEach: 20, seed: 26_301, writer: 'journal', size })
  t.diagnostic(JSON.stringify(result))
  assert.deepEqual([result.lost, result.notSound], [0, []])
  assert.ok(result.cuts === 100 && result.checkpoints >= 10)
})

test('with synchronous NORMAL acknowledged entries are lost in most cuts: the method would show it', async (t) => {
  const result = await powerCuts({ recordings: 2, cutsEach: 25, seed: 26_302, writer: { plain: 'NORMAL' } })
  t.diagnostic(`lost in ${result.cutsThatLost} of ${result.cuts} cuts`)
  assert.ok(result.cutsThatLost > result.cuts / 4)
})
