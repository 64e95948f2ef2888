import assert from 'node:assert/strict'
import { test } from 'node:test'
import { Instant } from '#road/instant.ts'
import { startPostgres } from '../support/postgres-server.ts'
import { runService } from '../support/running-service.ts'
import { headOf, openUnit, present, record } from './hand.ts'

test('the same service on PostgreSQL: two processes on one record see each other', async () => {
  await using server = await startPostgres('fast')
  // A site of its own, since the server may be one that other tests have used.
  const site = `service-${Date.now()}`
  const options = { now: () => Instant.parse(present), environment: { DATABASE_URL: server.url, NILGROWTH_SITE: site } }
  await using one = await runService(options)
  await using two = await runService(options)
  await openUnit(one)
  const kept = await record(
    two,
    'machine-registered',
    '06:00',
    {
      machine: 'machine:s1',
      name: 'Steriliser 1',
      type: 'steamSteriliser',
      airRemoval: 'gravity',
      chamberLitres: 60,
      programs: ['porous-134'],
    },
    { site },
  )
  assert.equal(kept.status, 201, JSON.stringify(kept.body))
  const known = await one.ask('GET', '/api/known/machine:s1')
  assert.equal((known.body as { standing: string }).standing, 'inService')
  assert.equal((await one.ask('GET', '/api/trace/machine:s1')).status, 200)
  assert.equal((await one.ask('GET', '/api/find?text=steril')).status, 200)

  // What the other process keeps is told to the screens of this one.
  const stream = await fetch(`${one.url}/api/live?after=${await headOf(one)}`)
  const reader = stream.body?.pipeThrough(new TextDecoderStream()).getReader()
  assert.ok(reader)
  await record(
    two,
    'load-built',
    '07:00',
    {
      load: 'load:l1',
      machine: 'machine:s1',
      program: 'porous-134',
      purpose: 'goods',
      rounds: [],
    },
    { site },
  )
  let told = ''
  while (!told.includes('load-built')) told += (await reader.read()).value ?? ''
  assert.match(told, /"subjects":\["load:l1","machine:s1"\]/)
  await reader.cancel()
  assert.deepEqual([...one.log, ...two.log], [])
})
