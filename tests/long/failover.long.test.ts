import assert from 'node:assert/strict'
import { test } from 'node:test'
import { failover } from '../crash/failover-rounds.ts'

const rounds = 15

test(`${rounds} failovers under load lose nothing`, async (t) => {
  let acknowledged = 0
  let lost = 0
  const back: number[] = []
  for (let round = 0; round < rounds; round += 1) {
    const result = await failover('confirming')
    acknowledged += result.acknowledged
    lost += result.lost
    back.push(Math.round(result.backMilliseconds))
  }
  t.diagnostic(`${acknowledged} entries acknowledged; back after ${back.toSorted((a, b) => a - b).join(', ')} ms`)
  assert.equal(lost, 0)
})
