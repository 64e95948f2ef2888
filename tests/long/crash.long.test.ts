import assert from 'node:assert/strict'
import { test } from 'node:test'
import { crashRounds } from '../crash/crash-rounds.ts'
import { startPostgres } from '../support/postgres-server.ts'
import { postgresUnderTest, sqliteUnderTest } from '../support/store-under-test.ts'

test('SQLite: 1,000 kills lose nothing', async (t) => {
  const { acknowledged, lost } = await crashRounds({ engine: sqliteUnderTest, kills: 1000, seed: 2611 })
  t.diagnostic(`${acknowledged} entries acknowledged`)
  assert.equal(lost, 0)
})

test('PostgreSQL: 800 kills of the writer and 200 of the server under it lose nothing', async (t) => {
  await using server = await startPostgres('synced')
  const engine = postgresUnderTest(() => server.url)
  const writer = await crashRounds({ engine, kills: 800, seed: 2612 })
  const both = await crashRounds({ engine, kills: 200, seed: 2613, atKill: () => server.crashAndRestart() })
  t.diagnostic(`${writer.acknowledged} and ${both.acknowledged} entries acknowledged`)
  assert.equal(writer.lost + both.lost, 0)
})
