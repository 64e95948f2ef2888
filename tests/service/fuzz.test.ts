import assert from 'node:assert/strict'
import { setPriority } from 'node:os'
import { test } from 'node:test'
import { fuzzService } from '../support/fuzz/fuzz.ts'

const seconds = 300

test('every route, asked for five minutes by everybody, fails never and leaves the record whole', async (t) => {
  // It is bounded by the clock: what the other tests leave of the processors is enough.
  setPriority(10)
  const seed = Number(process.env['NILGROWTH_FUZZ_SEED'] ?? Date.now() % 0x7f_ff_ff_ff)
  t.diagnostic(`seed ${seed}`)
  const { requests, routes, statuses, kept } = await fuzzService({ seconds, seed })
  t.diagnostic(
    `${requests} requests to ${routes} routes, ${kept} entries; ${JSON.stringify(Object.fromEntries(statuses))}`,
  )
  assert.ok(requests > 5 * routes, `${requests} requests to ${routes} routes`)
})
