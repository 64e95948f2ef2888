import assert from 'node:assert/strict'
import { mkdtempSync, rmSync } from 'node:fs'
import { get } from 'node:http'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, test } from 'node:test'
import { Instant } from '#road/instant.ts'
import { programItself } from '#journal/program.ts'
import type { UnitState } from '#service/api-types.ts'
import type { DemoSource, DemoStep } from '#service/unit/demo-source.ts'
import { runService, type RunningService } from '../support/running-service.ts'
import { postgresService, sqliteService } from '../support/service-engines.ts'
import { entryOf, headOf, openUnit, present } from './hand.ts'

const now = (): Instant => Instant.parse(present)
const postgres = await postgresService()
after(() => postgres[Symbol.asyncDispose]())

const person = (place: number) =>
  entryOf(
    'person-registered',
    '06:01',
    { person: `person:p${place}`, name: `Person ${place}`, roles: ['theatre'] },
    {
      by: programItself,
      id: `01900000-0000-7000-8000-${String(place).padStart(12, '0')}`,
    },
  )
const unit = entryOf(
  'unit-opened',
  '06:00',
  { unit: 'unit:unit', name: 'Invented', demonstration: true, timeZone: 'UTC' },
  { by: programItself, id: '01900000-0000-7000-8000-00000000ffff' },
)

/** A unit of 400 people, which stops for good after some when told to, as a power cut would. */
function smallDemo(hangsAfter = Number.POSITIVE_INFINITY): DemoSource & { readonly asked: Instant[] } {
  const asked: Instant[] = []
  return {
    total: 402,
    asked,
    async *steps({ now: until }): AsyncGenerator<DemoStep> {
      asked.push(until)
      yield { kind: 'attachment', text: 'a,b\n', mediaType: 'text/csv' }
      yield { kind: 'entry', entry: unit as never }
      for (let place = 0; place < 400; place += 1) {
        if (place === hangsAfter) throw new Error('the power is cut')
        yield { kind: 'entry', entry: person(place) as never }
      }
    },
  }
}

async function stateOf(service: RunningService): Promise<UnitState> {
  return (await service.ask('GET', '/api/unit')).body as UnitState
}

async function untilOpen(service: RunningService): Promise<UnitState> {
  // As long as it takes on a busy machine: what is asked is that it opens, not how soon.
  for (const end = Date.now() + 30_000; Date.now() < end;) {
    const state = await stateOf(service)
    if (state.state === 'open') return state
    await new Promise((resolve) => setTimeout(resolve, 10))
  }
  throw new Error('the unit did not open')
}

/** Waits until nothing is left to go on with. */
async function untilForgotten(service: RunningService): Promise<void> {
  for (let tries = 0; tries < 300; tries += 1) {
    if ((await service.journal.notes.read('demonstration of unit')) === undefined) return
    await new Promise((resolve) => setTimeout(resolve, 10))
  }
  throw new Error('the set-up is still marked as under way')
}

test('a new record says so; an empty unit is open with its manager, and cannot be set up again', async () => {
  await using service = await runService({ now })
  assert.deepEqual(await stateOf(service), { state: 'new' })
  await openUnit(service)
  const state = await stateOf(service)
  assert.ok(state.state === 'open' && state.unit.name === 'Harbour Road' && !state.unit.demonstration)
  assert.equal((await service.ask('GET', '/api/known/person:ada')).status, 200)
  assert.equal((await service.ask('POST', '/api/unit', { choice: 'demonstration' })).status, 409)
})

test('of two who choose at once one is told that the other has', async () => {
  await using service = await runService({ now })
  const choice = { choice: 'empty', name: 'A', timeZone: 'UTC', manager: 'Ada' }
  const answers = await Promise.all([
    service.ask('POST', '/api/unit', choice),
    service.ask('POST', '/api/unit', choice),
  ])
  assert.deepEqual(
    answers.map((answer) => answer.status).sort((a, b) => a - b),
    [202, 409],
  )
})

test('the demonstration is written in the background, with its progress', async () => {
  await using service = await runService({ now, demo: smallDemo() })
  const begun = await service.ask('POST', '/api/unit', { choice: 'demonstration' })
  assert.equal(begun.status, 202)
  assert.equal((begun.body as UnitState).state, 'settingUp')
  const state = await untilOpen(service)
  assert.ok(state.state === 'open' && state.unit.demonstration && state.head.seq === 401)
  await untilForgotten(service)
})

for (const engine of [sqliteService, postgres]) {
  test(`${engine.name}: a demonstration that was cut short goes on at the next start, with the same present`, async () => {
    const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-cut-'))
    const environment = await engine.newRecord()
    const cut = smallDemo(250)
    const first = await runService({ now, demo: cut, folder, environment })
    await first.ask('POST', '/api/unit', { choice: 'demonstration' })
    await untilOpen(first)
    assert.ok((await headOf(first)) < 401)
    assert.match(first.log.join(), /the power is cut/)
    await first.close()

    const later = () => Instant.parse('2026-06-11T09:00:00.000Z')
    const whole = smallDemo()
    const second = await runService({ now: later, demo: whole, folder, environment })
    await untilOpen(second)
    assert.equal(await headOf(second), 401)
    assert.deepEqual(whole.asked, cut.asked)
    await untilForgotten(second)
    await second.close()

    const again = smallDemo()
    const third = await runService({ now: later, demo: again, folder, environment })
    assert.equal((await stateOf(third)).state, 'open')
    assert.deepEqual(again.asked, [], 'what is written to its end is not begun again')
    assert.deepEqual([...second.log, ...third.log], [])
    await third.close()
    rmSync(folder, { recursive: true, force: true })
  })
}

test('postgres: a set-up of another unit on the same server does not go on here', async () => {
  const environment = await postgres.newRecord()
  const cut = await runService({ now, demo: smallDemo(250), environment })
  await cut.ask('POST', '/api/unit', { choice: 'demonstration' })
  await untilOpen(cut)
  await cut.close()
  const other = smallDemo()
  await using service = await runService({
    now,
    demo: other,
    environment: { ...environment, NILGROWTH_SITE: 'other' },
  })
  assert.deepEqual(await stateOf(service), { state: 'new' })
  assert.deepEqual(other.asked, [])
})

test('postgres: a second service that starts while the first still writes keeps every entry once', async () => {
  const environment = await postgres.newRecord()
  await using first = await runService({ now, demo: smallDemo(), environment })
  await first.ask('POST', '/api/unit', { choice: 'demonstration' })
  await using second = await runService({ now, demo: smallDemo(), environment })
  await untilOpen(first)
  await untilOpen(second)
  assert.equal(await headOf(second), 401)
  assert.deepEqual([...first.log, ...second.log], [])
})

test('an installation without a demonstration says so', async () => {
  await using service = await runService({ now })
  assert.equal((await service.ask('POST', '/api/unit', { choice: 'demonstration' })).status, 501)
})

test('the page of another site is turned away, the own one is not', async () => {
  await using service = await runService({ now })
  const asked = async (origin: string) => (await fetch(`${service.url}/api/unit`, { headers: { origin } })).status
  assert.equal(await asked('https://elsewhere.example'), 403)
  assert.equal(await asked('null'), 403)
  assert.equal(await asked(service.url), 200)
})

test('lists go on page by page', async () => {
  await using service = await runService({ now, demo: smallDemo() })
  await service.ask('POST', '/api/unit', { choice: 'demonstration' })
  await untilOpen(service)
  const seen: string[] = []
  let after: string | null = ''
  while (after !== null) {
    const next: string = after === '' ? '' : `&after=${encodeURIComponent(after)}`
    const page = (await service.ask('GET', `/api/known?kind=person&standing=active&limit=150${next}`)).body as {
      rows: { subject: string }[]
      next: string | null
    }
    seen.push(...page.rows.map((row) => row.subject))
    after = page.next
  }
  assert.equal(seen.length, 400)
  assert.equal(new Set(seen).size, 400)
})

test('a service that listens on this computer only answers to no other name', async () => {
  await using service = await runService()
  const asked = (host: string): Promise<number | undefined> =>
    new Promise((resolve, reject) => {
      const headers = { host, origin: `http://${host}` }
      get(`${service.url}/api/unit`, { headers }, (response) => {
        response.resume()
        resolve(response.statusCode)
      }).on('error', reject)
    })
  const port = new URL(service.url).port
  for (const host of [`localhost:${port}`, `127.0.0.1:${port}`, `[::1]:${port}`, 'localhost']) {
    assert.equal(await asked(host), 200, host)
  }
  for (const host of ['rebound.example', `rebound.example:${port}`, 'localhost.rebound.example', '127.0.0.1.example']) {
    assert.equal(await asked(host), 400, host)
  }
})
