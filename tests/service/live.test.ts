import assert from 'node:assert/strict'
import { after, mock, test } from 'node:test'
import { openJournal } from '#journal/open-journal.ts'
import type { Journal, Reader } from '#journal/journal.ts'
import { placeFrom } from '#journal/place.ts'
import { SiteId } from '#road/entry.ts'
import { Instant } from '#road/instant.ts'
import { theRoad } from '#road/the-road.ts'
import type { ApiProblem, LiveChange } from '#service/api-types.ts'
import { liveHub } from '#service/live/live-hub.ts'
import { runService, type RunningService } from '../support/running-service.ts'
import { postgresService, sqliteService } from '../support/service-engines.ts'
import { entryOf, headOf, openUnit, present, record } from './hand.ts'

interface Follow extends Disposable {
  /** Waits until so many changes have come, and gives them. */
  readonly changes: (count: number) => Promise<readonly LiveChange[]>
}

/** As where no word comes from other processes, so that a service has to ask. */
function deaf(journal: Journal): Pick<Journal, 'subscribe' | 'elsewhere'> {
  return {
    subscribe: (listener) => journal.subscribe(listener),
    elsewhere: { hear: () => () => {}, isHearing: () => false },
  }
}

/** Follows the stream as a browser does, from an entry on. */
async function follow(service: RunningService, lastSeen?: number): Promise<Follow> {
  const stop = new AbortController()
  const headers: Record<string, string> = lastSeen === undefined ? {} : { 'last-event-id': String(lastSeen) }
  const response = await fetch(`${service.url}/api/live`, { headers, signal: stop.signal })
  assert.equal(response.status, 200)
  assert.match(response.headers.get('content-type') ?? '', /^text\/event-stream/)
  assert.equal(response.headers.get('x-content-type-options'), 'nosniff')
  const got: LiveChange[] = []
  const reading = readEvents(response, got)
  return {
    async changes(count) {
      for (let tries = 0; got.length < count && tries < 200; tries += 1)
        await new Promise((resolve) => setTimeout(resolve, 20))
      return got
    },
    [Symbol.dispose]() {
      stop.abort()
      void reading
    },
  }
}

async function readEvents(response: Response, got: LiveChange[]): Promise<void> {
  let pending = ''
  try {
    for await (const chunk of (response.body ?? new ReadableStream<Uint8Array<ArrayBuffer>>()).pipeThrough(
      new TextDecoderStream(),
    )) {
      const events = (pending + chunk).split('\n\n')
      pending = events.pop() ?? ''
      for (const event of events) {
        const data = /^data: (.*)$/m.exec(event)?.[1]
        if (data === undefined || /^event: /m.test(event)) continue
        const change = JSON.parse(data) as LiveChange
        assert.match(event, new RegExp(`^id: ${change.seq}$`, 'm'))
        got.push(change)
      }
    }
  } catch {
    // The test has seen enough.
  }
}

const postgres = await postgresService()
after(() => postgres[Symbol.asyncDispose]())
const engines = [sqliteService, postgres] as const
const now = () => Instant.parse(present)

type Opened = RunningService & {
  /** The record as another process would open it. */
  readonly openOther: () => Promise<Journal>
}

async function opened(
  engine: (typeof engines)[number],
  settings: Readonly<Record<string, string>> = {},
): Promise<Opened> {
  const environment = { ...(await engine.newRecord()), ...settings }
  const service = await runService({ now, environment })
  await openUnit(service)
  await record(service, 'machine-registered', '06:00', {
    machine: 'machine:s1',
    name: 'Steriliser 1',
    type: 'steamSteriliser',
    airRemoval: 'gravity',
    chamberLitres: 60,
    programs: ['porous-134'],
  })
  const at = placeFrom({ NILGROWTH_DATA: service.file, ...environment })
  return { ...service, openOther: () => openJournal({ at, road: theRoad, now }) }
}

const leak = (minute: number) =>
  entryOf('leak-tested', `08:${String(minute).padStart(2, '0')}`, {
    machine: 'machine:s1',
    startKPa: 7,
    endKPa: 7.2,
    seconds: 600,
    stabilisationSeconds: 300,
  } as never)

/** The same reader, with the count of its looks at the record. */
function counted(reader: Reader): { readonly reader: Reader; readonly reads: { count: number } } {
  const reads = { count: 0 }
  const entries: Reader['entries'] = (page) => {
    reads.count += 1
    return reader.entries(page)
  }
  return { reader: { ...reader, entries }, reads }
}

async function until(reached: () => boolean): Promise<void> {
  for (let tries = 0; !reached() && tries < 1000; tries += 1) await new Promise((resolve) => setTimeout(resolve, 10))
  assert.ok(reached(), 'it came to it within ten seconds')
}

/** Waits until no more looks come. */
async function untilQuiet(reads: { readonly count: number }): Promise<void> {
  for (let before = -1; before !== reads.count;) {
    before = reads.count
    // The count is looked at again after each wait.
    // oxlint-disable-next-line no-await-in-loop
    await new Promise((resolve) => setTimeout(resolve, 100))
  }
}

/** The service hears a moment later that a stream was closed. */
async function followOnceFree(service: RunningService): Promise<Follow> {
  for (let tries = 0; tries < 100; tries += 1) {
    try {
      // oxlint-disable-next-line no-await-in-loop
      return await follow(service)
    } catch {
      // oxlint-disable-next-line no-await-in-loop
      await new Promise((resolve) => setTimeout(resolve, 20))
    }
  }
  throw new Error('no place came free')
}

for (const engine of engines) {
  test(`${engine.name}: every kept entry is told once, in order, with its subjects`, async () => {
    await using service = await opened(engine)
    const before = await headOf(service)
    using following = await follow(service)
    await service.ask(
      'POST',
      '/api/entries',
      Array.from({ length: 30 }, (_, minute) => leak(minute)),
    )
    const changes = await following.changes(30)
    assert.deepEqual(
      changes.map((change) => change.seq),
      Array.from({ length: 30 }, (_, place) => before + 1 + place),
    )
    assert.deepEqual(changes[0], { seq: before + 1, kind: 'leak-tested', subjects: ['machine:s1'], alarm: null })
  })

  test(`${engine.name}: a screen that comes back misses nothing`, async () => {
    await using service = await opened(engine)
    const before = await headOf(service)
    await service.ask('POST', '/api/entries', [leak(1), leak(2), leak(3)])
    using following = await follow(service, before + 1)
    await service.ask('POST', '/api/entries', leak(4))
    assert.deepEqual(
      (await following.changes(3)).map((change) => change.seq),
      [before + 2, before + 3, before + 4],
    )
  })

  test(`${engine.name}: a failure alarms in words: growth, and a fact that a rule would have stopped`, async () => {
    await using service = await opened(engine)
    await record(service, 'load-built', '09:00', {
      load: 'load:l1',
      machine: 'machine:s1',
      program: 'porous-134',
      purpose: 'biologicalTest',
      rounds: [],
      challenge: { biologicalLot: 'B' },
    })
    using following = await follow(service)
    await record(service, 'biological-read', '17:00', {
      load: 'load:l1',
      lot: 'B',
      result: 'growth',
      control: { lot: 'B', result: 'growth' },
      incubatedHours: 4,
    })
    const [change] = await following.changes(1)
    assert.match(change?.alarm ?? '', /^Growth in a biological indicator/)
    assert.deepEqual(change?.subjects, ['load:l1', 'recall:l1'])
  })

  test(`${engine.name}: what another process writes into the same record is told too`, async () => {
    await using service = await opened(engine)
    using following = await follow(service)
    await using other = await service.openOther()
    await other.append(leak(9) as never)
    assert.equal((await following.changes(1)).length, 1)
  })

  test(`${engine.name}: 50 at once are all kept, in one unbroken chain`, async () => {
    await using service = await opened(engine)
    const before = await headOf(service)
    const answers = await Promise.all(
      Array.from({ length: 50 }, (_, minute) => service.ask('POST', '/api/entries', leak(minute))),
    )
    assert.deepEqual([...new Set(answers.map((answer) => answer.status))], [201])
    const seqs = answers.map((answer) => (answer.body as { entry: { seq: number } }).entry.seq).sort((a, b) => a - b)
    assert.deepEqual(
      seqs,
      Array.from({ length: 50 }, (_, place) => before + 1 + place),
    )
    const page = (await service.ask('GET', `/api/entries?after=${before}&limit=1000`)).body as {
      entries: { hash: string; previousHash: string }[]
      next: null
    }
    assert.equal(page.entries.length, 50)
    page.entries.slice(1).forEach((entry, place) => assert.equal(entry.previousHash, page.entries[place]?.hash))
  })

  test(`${engine.name}: the record is read once for all who follow it, at a commit and when asked now and then`, async () => {
    await using service = await opened(engine)
    await using journal = await service.openOther()
    const { reader, reads } = counted(journal.read(SiteId.parse('unit')))
    mock.timers.enable({ apis: ['setInterval'] })
    const hub = liveHub({ journal: deaf(journal), reader, askEveryMilliseconds: 1000, most: 40 })
    try {
      const told = Array.from({ length: 40 }, (): LiveChange[] => [])
      const head = (await reader.head())?.seq ?? 0
      for (const each of told) hub.follow(head, { tell: (change) => void each.push(change), ended: () => undefined })
      await untilQuiet(reads)

      const atRest = reads.count
      mock.timers.tick(1000)
      await untilQuiet(reads)
      assert.equal(reads.count, atRest + 1, 'one look for 40 who follow')

      const before = reads.count
      await journal.append(leak(1) as never)
      await until(() => told.every((each) => each.length === 1))
      await untilQuiet(reads)
      // One that finds the entry and one that finds no more.
      assert.equal(reads.count, before + 2)
      assert.deepEqual(
        told.map((each) => each[0]?.seq),
        told.map(() => head + 1),
      )
    } finally {
      hub.close()
      mock.timers.reset()
    }
  })

  test(`${engine.name}: nobody follows, so nothing is asked; who comes later and behind is told all the same`, async () => {
    await using service = await opened(engine)
    await using journal = await service.openOther()
    const { reader, reads } = counted(journal.read(SiteId.parse('unit')))
    mock.timers.enable({ apis: ['setInterval'] })
    const hub = liveHub({ journal: deaf(journal), reader, askEveryMilliseconds: 1000, most: 2 })
    try {
      const head = (await reader.head())?.seq ?? 0
      hub.follow(head, { tell: () => undefined, ended: () => undefined })()
      await untilQuiet(reads)
      const atRest = reads.count
      await journal.append(leak(1) as never)
      mock.timers.tick(5000)
      await untilQuiet(reads)
      assert.equal(reads.count, atRest)
      const told: number[] = []
      hub.follow(head - 1, { tell: ({ seq }) => void told.push(seq), ended: () => undefined })
      await journal.append(leak(2) as never)
      await until(() => told.length === 3)
      assert.deepEqual(told, [head, head + 1, head + 2])
    } finally {
      hub.close()
      mock.timers.reset()
    }
  })

  test(`${engine.name}: one who is slow holds up nobody, and misses nothing`, async () => {
    await using service = await opened(engine)
    await using journal = await service.openOther()
    const reader = journal.read(SiteId.parse('unit'))
    const hub = liveHub({ journal: deaf(journal), reader, askEveryMilliseconds: 1000, most: 2 })
    try {
      const head = (await reader.head())?.seq ?? 0
      const slow: number[] = []
      const quick: number[] = []
      let takeOn = (): void => undefined
      const held = new Promise<void>((resolve) => {
        takeOn = resolve
      })
      hub.follow(head, { tell: ({ seq }) => (slow.push(seq), held), ended: () => undefined })
      hub.follow(head, { tell: ({ seq }) => void quick.push(seq), ended: () => undefined })
      // More than is held for those who are behind.
      const many = Array.from({ length: 260 }, (_, place) => leak(place % 60))
      await journal.appendMany(many as never)
      await until(() => quick.length === many.length)
      assert.equal(slow.length, 1)
      takeOn()
      await until(() => slow.length === many.length)
      assert.deepEqual(slow, quick)
      assert.deepEqual(
        quick,
        many.map((_, place) => head + 1 + place),
      )
    } finally {
      hub.close()
    }
  })

  test(`${engine.name}: a stream too many is told so, and a stream that closes gives its place back`, async () => {
    await using service = await opened(engine, { NILGROWTH_STREAMS_LIMIT: '2' })
    using kept = await follow(service)
    {
      using _going = await follow(service)
      const full = await service.ask('GET', '/api/live')
      assert.equal(full.status, 503)
      assert.equal(full.type, 'application/problem+json')
      assert.equal(full.headers.get('retry-after'), '30')
      const problem = full.body as ApiProblem
      assert.equal(problem.type, '/problems/too-many-streams')
      assert.deepEqual(problem.problems, [{ field: 'open streams', wanted: 'at most 2', current: '2 are open' }])
      assert.equal((await service.ask('GET', '/api/unit')).status, 200)
    }
    using again = await followOnceFree(service)
    await service.ask('POST', '/api/entries', leak(1))
    assert.equal((await again.changes(1)).length, 1)
    assert.equal((await kept.changes(1)).length, 1)
  })
}
