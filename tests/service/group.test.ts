import assert from 'node:assert/strict'
import { test } from 'node:test'
import { runGroup } from '#cli/group.ts'
import { captured } from '#cli/captured.suite.ts'
import { Instant } from '#road/instant.ts'
import type { ApiProblem } from '#service/api-types.ts'
import type { GroupAnswer } from '#service/group/group-answer.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { openUnit, present, record } from './hand.ts'

const now = () => Instant.parse(present)

/** A steriliser with one load in which an indicator grew: the recall opens by itself. */
async function letGrow(service: RunningService, site: string): Promise<void> {
  const kept = async (...[kind, clock, body]: Parameters<typeof record> extends [unknown, ...infer R] ? R : never) => {
    const answer = await record(service, kind, clock, body, { site })
    assert.equal(answer.status, 201, JSON.stringify(answer.body))
  }
  await kept('machine-registered', '06:00', {
    machine: 'machine:s1',
    name: 'Steriliser 1',
    type: 'steamSteriliser',
    airRemoval: 'gravity',
    chamberLitres: 60,
    programs: ['porous-134'],
  })
  const load = { load: 'load:l1', machine: 'machine:s1', program: 'porous-134' } as const
  await kept('load-built', '07:00', { ...load, purpose: 'biologicalTest', rounds: [] })
  const read = { load: 'load:l1', lot: 'lot-1', result: 'growth', incubatedHours: 24 } as const
  await kept('biological-read', '17:00', { ...read, control: { lot: 'lot-1', result: 'growth' } } as never)
}

test('a group sees its sites side by side and no others, and a site that was not given the right sees none', async () => {
  await using north = await runService({ now, environment: { NILGROWTH_SITE: 'north' } })
  await openUnit(north)
  await letGrow(north, 'north')
  const data = { NILGROWTH_DATA: north.file }
  await using south = await runService({ now, environment: { ...data, NILGROWTH_SITE: 'south' } })
  await openUnit(south)
  await using hidden = await runService({ now, environment: { ...data, NILGROWTH_SITE: 'hidden' } })
  await openUnit(hidden)

  const refused = await south.ask('GET', '/api/group')
  assert.equal(refused.status, 501)
  assert.equal((refused.body as ApiProblem).title, 'This site may compare no others')

  const environment = { ...data, NILGROWTH_SITE: 'office', NILGROWTH_GROUP: 'north,south,none' }
  await using office = await runService({ now, environment })
  const answer = (await office.ask('GET', '/api/group?days=30')).body as GroupAnswer
  assert.deepEqual(
    answer.sites.map(({ site, name, openRecalls, indicators, rate }) => [
      site,
      name,
      openRecalls,
      indicators,
      rate.interval,
    ]),
    [
      ['north', 'Harbour Road', 1, { read: 1, grown: 1 }, null],
      ['south', 'Harbour Road', 0, { read: 0, grown: 0 }, null],
      ['none', null, 0, { read: 0, grown: 0 }, null],
    ],
  )
  assert.doesNotMatch(JSON.stringify(answer), /hidden|person:|case:/)

  const shown = captured()
  assert.equal(await runGroup(['--data', north.file], shown.io), 0)
  const lines = shown.out().trim().split('\n')
  assert.deepEqual(
    lines.map((line) => line.split('\t').slice(0, 3)),
    [
      ['hidden', 'Harbour Road', '0 open recalls'],
      ['north', 'Harbour Road', '1 open recalls'],
      ['south', 'Harbour Road', '0 open recalls'],
    ],
  )

  for (const days of ['0', '4001', '999999999999', '1.5', 'many']) {
    const refused = captured()
    assert.equal(await runGroup(['--days', days, '--data', north.file], refused.io), 2, days)
    assert.match(refused.err(), /--days: wanted a whole number of days from 1 to 4000, current value is "/)
    assert.equal((await office.ask('GET', `/api/group?days=${days}`)).status, 422, days)
  }
  assert.equal(await runGroup(['--days', '4000', '--data', north.file], captured().io), 0)
})
