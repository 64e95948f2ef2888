import assert from 'node:assert/strict'
import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, before, describe, test } from 'node:test'
import { setTimeout as wait } from 'node:timers/promises'
import { Client } from 'pg'
import type { Journal } from '#journal/journal.ts'
import { openJournal } from '#journal/open-journal.ts'
import type { Place } from '#journal/place.ts'
import { usualRotation } from '#journal/backup/rotation.ts'
import { SiteId } from '#road/entry.ts'
import { instant } from '#road/instant.ts'
import type { Bodies } from '#road/kinds.ts'
import { theRoad } from '#road/the-road.ts'
import { backups } from '#service/keeping/backups.ts'
import { seals } from '#service/keeping/seals.ts'
import { postgresService } from '../support/service-engines.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { headOf, openUnit, present, record } from './hand.ts'

const now = () => instant(Date.parse(present))
const site = SiteId.parse('unit')

async function until(what: string, holds: () => Promise<boolean> | boolean): Promise<void> {
  for (let tries = 0; tries < 500; tries += 1) {
    if (await holds()) return
    await wait(20)
  }
  throw new Error(`Waited in vain for ${what}`)
}

const steriliser: Bodies['machine-registered'] = {
  machine: 'machine:s1',
  name: 'Steriliser 1',
  type: 'steamSteriliser',
  airRemoval: 'gravity',
  chamberLitres: 60,
  programs: ['porous-134'],
}

async function buildLoad(service: RunningService, load: string): Promise<void> {
  const kept = await record(service, 'load-built', '07:00', {
    load: `load:${load}`,
    machine: 'machine:s1',
    program: 'porous-134',
    purpose: 'goods',
    rounds: [],
  })
  assert.equal(kept.status, 201, JSON.stringify(kept.body))
}

interface Stream extends Disposable {
  /** Waits until a text has come; gives when, by the clock of the program. */
  readonly came: (text: string) => Promise<number>
}

async function follow(service: RunningService): Promise<Stream> {
  const stop = new AbortController()
  const response = await fetch(`${service.url}/api/live?after=${await headOf(service)}`, { signal: stop.signal })
  const reader = response.body?.pipeThrough(new TextDecoderStream()).getReader()
  let told = ''
  return {
    async came(text) {
      while (!told.includes(text)) told += (await reader?.read())?.value ?? ''
      return performance.now()
    },
    [Symbol.dispose]: () => stop.abort(),
  }
}

describe('several services on one database', () => {
  let engine: Awaited<ReturnType<typeof postgresService>>
  let folder = ''
  before(async () => {
    folder = mkdtempSync(join(tmpdir(), 'nilgrowth-several-'))
    engine = await postgresService()
  })
  after(async () => {
    await engine[Symbol.asyncDispose]()
    rmSync(folder, { recursive: true, force: true })
  })

  async function newRecord(): Promise<{ environment: Record<string, string>; at: Place; ask: Client['query'] }> {
    const made = await engine.newRecord()
    const url = made['DATABASE_URL'] ?? ''
    const environment = { ...made, NILGROWTH_SEAL_KEY_FILE: join(folder, 'seal-key') }
    return { environment, at: { kind: 'postgres', url }, ask: queryOf(url) }
  }

  const queryOf = (url: string) =>
    (async (text: string) => {
      const client = new Client({ connectionString: url })
      await client.connect()
      try {
        return await client.query(text)
      } finally {
        await client.end()
      }
    }) as Client['query']

  test('an entry at one is on the stream of the other by word, without its asking, also after the word was cut off', async () => {
    const { environment, ask } = await newRecord()
    await using one = await runService({ environment, now })
    await using two = await runService({ environment, now })
    await openUnit(one)
    await record(one, 'machine-registered', '06:00', steriliser)
    await until('the word', () => two.journal.elsewhere.isHearing() && one.journal.elsewhere.isHearing())
    using stream = await follow(two)

    const took: number[] = []
    for (let load = 0; load < 10; load += 1) {
      await buildLoad(one, `l${load}`)
      const kept = performance.now()
      took.push((await stream.came(`"load:l${load}"`)) - kept)
    }
    took.sort((a, b) => a - b)
    // While it hears, a service asks only every ten seconds: without the word ten entries would take minutes.
    assert.ok((took[5] ?? Infinity) < 500, `milliseconds from kept to told: ${took.map(Math.round).join(' ')}`)

    const words = `SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE query LIKE 'LISTEN%' AND datname = current_database()`
    assert.ok((await ask(words)).rowCount)
    await until('the word to be lost', () => !two.journal.elsewhere.isHearing())
    await buildLoad(one, 'while-deaf')
    await stream.came('"load:while-deaf"')
    await until('the word to come back', () => two.journal.elsewhere.isHearing())
    await buildLoad(one, 'again')
    const kept = performance.now()
    assert.ok((await stream.came('"load:again"')) - kept < 1000)
    assert.deepEqual([...one.log, ...two.log], [])
  })

  test('a site hears nothing of another one, and a process nothing of itself', async () => {
    const { at } = await newRecord()
    const heard: (string | undefined)[] = []
    await using one = await openJournal({ at, road: theRoad, now })
    await using two = await openJournal({ at, road: theRoad, now })
    for (const journal of [one, two]) journal.elsewhere.hear((from) => heard.push(from))
    await until('the word', () => one.elsewhere.isHearing() && two.elsewhere.isHearing())
    heard.length = 0
    const person = { person: 'person:p1', name: 'P', roles: ['manager'] }
    const entry = {
      id: '01a211e0-0000-7000-8000-000000000001',
      site: 'north',
      kind: 'person-registered',
      happenedAt: present,
      by: 'person:nilgrowth',
      workstation: 'w',
      body: person,
    }
    const outcome = await one.append(entry as never)
    assert.equal(outcome.kind, 'kept', JSON.stringify(outcome))
    await until('one word', () => heard.length > 0)
    await wait(100)
    assert.deepEqual(heard, ['north'])
  })

  /** Three processes' worth of journals on one database. */
  async function three(at: Place): Promise<readonly Journal[] & AsyncDisposable> {
    const journals = await Promise.all([1, 2, 3].map(() => openJournal({ at, road: theRoad, now })))
    return Object.assign(journals, {
      [Symbol.asyncDispose]: async () => void (await Promise.all(journals.map((journal) => journal.close()))),
    })
  }

  test('of three services that find the seal of the day missing one makes it', async () => {
    const { environment, at } = await newRecord()
    {
      await using service = await runService({ environment, now })
      await openUnit(service)
    }
    const next = () => instant(Date.parse(present) + 86_400_000)
    const before = await countOf(at)
    await using journals = await three(at)
    const keyFile = join(folder, 'seal-key')
    // Asked every few milliseconds by all three, so that they would meet.
    const made = journals.map((journal) =>
      seals({ journal, site, keyFile, now: next, log: assert.fail, lookEveryMilliseconds: 5 }),
    )
    await until('a seal', async () => (await countOf(at)) > before)
    await wait(300)
    for (const each of made) await each.close()
    assert.equal((await countOf(at)) - before, 1)
  })

  async function countOf(at: Place): Promise<number> {
    await using journal = await openJournal({ at, road: theRoad, now })
    return (await journal.seals(site, 100)).length
  }

  for (const shared of [true, false]) {
    test(`of three services one makes the backup that is due, with ${shared ? 'a shared folder' : 'folders of their own'}`, async () => {
      const { environment, at } = await newRecord()
      {
        await using service = await runService({ environment, now })
        await openUnit(service)
      }
      await using journals = await three(at)
      const base = mkdtempSync(join(folder, 'backups-'))
      const folders = [0, 1, 2].map((number) => join(base, shared ? 'all' : String(number)))
      const log: string[] = []
      const made = journals.map((journal, index) =>
        backups({
          at,
          site,
          journal,
          now,
          log: (line) => log.push(line),
          lookEveryMilliseconds: 20,
          schedule: {
            folder: folders[index] ?? '',
            keyFile: join(base, 'key'),
            everyHours: 24,
            rotation: usualRotation,
          },
        }),
      )
      await until('a backup', () => log.some((line) => line.includes('restored and compared')))
      await wait(500)
      const files = [...new Set(folders)].flatMap((each) => {
        try {
          return readdirSync(each)
        } catch {
          return []
        }
      })
      assert.equal(files.length, 1, `${files.join(' ')}; ${log.join('; ')}`)
      for (const each of made) await each.close()
    })
  }

  test('a service that dies in the middle of a job leaves it to the others', async () => {
    const { at, ask } = await newRecord()
    await using journals = await three(at)
    const [one, two] = journals
    assert.ok(one !== undefined && two !== undefined)
    const begun = Promise.withResolvers<void>()
    const end = Promise.withResolvers<void>()
    const held = one.alone('job', async () => {
      begun.resolve()
      await end.promise
    })
    await begun.promise
    assert.deepEqual(await two.alone('job', async () => 1), { done: 'elsewhere' })
    assert.deepEqual(await two.alone('other job', async () => 2), { done: 'here', value: 2 })
    // What the database sees of a process that is killed.
    await ask(
      `SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE query LIKE 'SELECT pg_try_advisory_lock%' AND datname = current_database()`,
    )
    await until('the lock', async () => (await two.alone('job', async () => 3)).done === 'here')
    end.resolve()
    await held
  })
})
