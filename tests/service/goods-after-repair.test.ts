import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import { Instant } from '#road/instant.ts'
import { gasDevice, gasSteriliser } from '../support/gas-parts.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { furnishOneSet, openUnit, present, record } from './hand.ts'

/*
 * A steriliser that had a major repair and was never taken out of service: its goods wait for three negative biological
 * tests of their cycle type, asked of the whole record.
 */

const { machine } = gasSteriliser
const [program] = gasSteriliser.programs
let service: RunningService

before(async () => {
  service = await runService({ now: () => Instant.parse(present) })
  await openUnit(service)
  await record(service, 'machine-registered', '01:00', gasSteriliser)
  await furnishOneSet(service, gasDevice)
  const repair = { machine, what: 'New vacuum pump', major: true } as const
  assert.equal((await record(service, 'machine-repaired', '01:10', repair)).status, 201)
})

after(() => service.close())

/** What is said of the release of the goods: they were never cleaned or read, so that other rules stop them as well. */
async function releaseSays(clock: string): Promise<string> {
  const packs = [{ round: 'round:a', outcome: 'released' }] as const
  const answer = await record(service, 'load-decided', clock, { load: 'load:goods', packs: [...packs] })
  assert.notEqual(answer.status, 201)
  return JSON.stringify(answer.body)
}

async function prove(number: number): Promise<void> {
  const load = `load:q${number}` as const
  const built = { load, machine, program, purpose: 'qualification', rounds: [] } as const
  assert.equal((await record(service, 'load-built', `02:0${number}`, { ...built, rounds: [] })).status, 201)
  const control = { lot: 'b', result: 'growth' } as const
  const read = { load, lot: 'b', result: 'noGrowth', control, incubatedHours: 48 } as const
  const kept = await record(service, 'biological-read', `03:0${number}`, read)
  assert.equal(kept.status, 201, JSON.stringify(kept.body))
}

test('goods wait after a major repair until the third test of their cycle type is good', async () => {
  for (const number of [1, 2]) {
    // oxlint-disable-next-line no-await-in-loop: one step after the other
    await prove(number)
  }
  const goods = { load: 'load:goods', machine, program, purpose: 'goods', rounds: ['round:a'] } as const
  const built = await record(service, 'load-built', '04:00', { ...goods, rounds: ['round:a'] })
  assert.match(JSON.stringify(built.body), /goods-after-proof/)
  assert.match(await releaseSays('05:00'), /goods-after-proof/)
  await prove(3)
  assert.doesNotMatch(await releaseSays('05:10'), /goods-after-proof/)
})
