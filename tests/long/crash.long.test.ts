import assert from 'node:assert/strict'
import { test } from 'node:test'
import { crashRounds } from '../crash/crash-rounds.ts'
import { startPostgres } from '../support/postgres-server.ts'
import { postgresUnderTest, sqliteUnderTest } from '../support/store-under-test.ts'

test('SQLite: 220 kills lose nothing', async (t) => {
  const { acknowledged, lost } = await crashRounds({ engine: sqliteUnderTest, kills: 220, seed: 2611 })
  t.diagnostic(`${acknowledged} entries acknowledged`)
  assert.equal(lost, 0)
})

test('PostgreSQL: 40 kills of the writer and 20 of the server lose nothing', async (t) => {
  await using server = await startPostgres('synced')
  const engine = postgresUnderTest(() => server.url)
  const writer = await crashRounds({ engine, kills: 40, seed: 2612 })
  const both = await crashRounds({ engine, kills: 20, seed: 2613, atKill: () => server.crashAndRestart() })
  t.diagnostic(`${writer.acknowledged} and ${both.acknowledged} entries acknowledged`)
  assert.equal(writer.lost + both.lost, 0)
})
