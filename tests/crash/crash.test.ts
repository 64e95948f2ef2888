import assert from 'node:assert/strict'
import { test } from 'node:test'
import { startPostgres } from '../support/postgres-server.ts'
import { postgresUnderTest, sqliteUnderTest } from '../support/store-under-test.ts'
import { crashRounds } from './crash-rounds.ts'

const seed = 26

test('SQLite: after 20 kills every acknowledged entry is there, once, and the store is sound', async (t) => {
  const { acknowledged, lost } = await crashRounds({ engine: sqliteUnderTest, kills: 20, seed })
  t.diagnostic(`${acknowledged} entries acknowledged`)
  assert.ok(acknowledged > 500, `only ${acknowledged} entries were acknowledged: the writer was hardly at work`)
  assert.equal(lost, 0)
})

test('a writer that acknowledges before it is durable is caught', async (t) => {
  const { acknowledged, lost } = await crashRounds({ engine: sqliteUnderTest, kills: 5, seed, honesty: 'early' })
  t.diagnostic(`${lost} of ${acknowledged} entries lost`)
  assert.ok(lost > 0)
})

test('PostgreSQL: kills of the writer, and of the server under it', async (t) => {
  await using server = await startPostgres('synced')
  const engine = postgresUnderTest(() => server.url)
  const writer = await crashRounds({ engine, kills: 5, seed })
  const both = await crashRounds({ engine, kills: 3, seed: seed + 1, atKill: () => server.crashAndRestart() })
  t.diagnostic(`${writer.acknowledged} and ${both.acknowledged} entries acknowledged`)
  assert.equal(writer.lost + both.lost, 0)
})
