import assert from 'node:assert/strict'
import { test } from 'node:test'
import { fuzzService } from '../support/fuzz/fuzz.ts'

test('every route, asked for an hour by everybody, fails never and leaves the record whole', async (t) => {
  const seconds = Number(process.env['NILGROWTH_FUZZ_SECONDS'] ?? 3600)
  const seed = Number(process.env['NILGROWTH_FUZZ_SEED'] ?? Date.now() % 0x7f_ff_ff_ff)
  t.diagnostic(`seed ${seed}`)
  const { requests, routes, statuses, kept } = await fuzzService({ seconds, seed })
  t.diagnostic(
    `${requests} requests to ${routes} routes, ${kept} entries; ${JSON.stringify(Object.fromEntries(statuses))}`,
  )
  assert.ok(requests > seconds)
})
