import assert from 'node:assert/strict'
import { test } from 'node:test'
import { failover } from './failover-rounds.ts'

test('the first server is killed under load: the same service goes on at its standby and nothing acknowledged is lost', async (t) => {
  const { acknowledged, lost, backMilliseconds, log, standby } = await failover('confirming')
  t.diagnostic(`${acknowledged} acknowledged, ${lost} lost, back after ${Math.round(backMilliseconds)} ms`)
  assert.ok(acknowledged > 50)
  assert.equal(lost, 0)
  assert.deepEqual(standby, ['confirms', 'missing'])
  assert.ok(
    log.some((line) => line.startsWith('standby: 1 of 1 standbys confirm')),
    log.join('\n'),
  )
  // The tablets may have been told that the database does not answer; none saw a failure of ours.
  assert.deepEqual(
    log.filter((line) => line.startsWith('failure')),
    [],
  )
})

test('the control, where the first server does not wait for its standby, loses what it had acknowledged', async (t) => {
  const { acknowledged, lost, log, standby } = await failover('trailing')
  t.diagnostic(`${acknowledged} acknowledged, ${lost} lost`)
  assert.ok(lost > 0)
  assert.equal(standby[0], 'missing')
  assert.ok(
    log.some((line) => line.startsWith('NO STANDBY: none of 1 standbys confirms commits')),
    log.join('\n'),
  )
})
