import assert from 'node:assert/strict'
import { test } from 'node:test'
import { compiler } from './power-cut/recording.ts'
import { powerCuts } from './power-cut/power-cuts.ts'

const skip =
  process.platform === 'linux' && compiler() !== undefined
    ? false
    : 'recording what reaches the disk needs Linux and a C compiler, and neither is replaced here by anything weaker'

test(
  'SQLite: after 16 power cuts every acknowledged entry is there, once, and the store is sound',
  { skip },
  async (t) => {
    const result = await powerCuts({ recordings: 1, cutsEach: 16, seed: 2630, writer: 'journal' })
    t.diagnostic(JSON.stringify(result))
    assert.deepEqual(result.notSound, [])
    assert.equal(result.lost, 0)
    assert.ok(result.acknowledged > 1000, 'the writer was at work')
    assert.ok(result.checkpoints > 1, 'the log was carried over into the file')
  },
)

test('a store that syncs less loses acknowledged entries, and this is caught', { skip }, async (t) => {
  const normal = await powerCuts({ recordings: 1, cutsEach: 12, seed: 2631, writer: { plain: 'NORMAL' } })
  const full = await powerCuts({ recordings: 1, cutsEach: 12, seed: 2631, writer: { plain: 'FULL' } })
  t.diagnostic(`NORMAL lost in ${normal.cutsThatLost} of ${normal.cuts} cuts, FULL in ${full.cutsThatLost}`)
  assert.ok(normal.cutsThatLost > 0)
  assert.deepEqual([full.lost, full.notSound], [0, []])
})

test('the journal on a disk that lies about its syncs is caught', { skip }, async (t) => {
  const result = await powerCuts({ recordings: 1, cutsEach: 10, seed: 2632, writer: 'journal', trustSyncs: false })
  t.diagnostic(`lost or not sound in ${result.cutsThatLost + result.notSound.length} of ${result.cuts} cuts`)
  assert.ok(result.cutsThatLost + result.notSound.length > 0)
})
