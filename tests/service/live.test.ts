import assert from 'node:assert/strict'
import { test } from 'node:test'
import { openJournal } from '#journal/open-journal.ts'
import { Instant } from '#road/instant.ts'
import { theRoad } from '#road/the-road.ts'
import type { LiveChange } from '#service/api-types.ts'
import { runService, type RunningService } from '../support/running-service.ts'
import { entryOf, headOf, openUnit, present, record } from './hand.ts'

interface Follow extends Disposable {
  /** Waits until so many changes have come, and gives them. */
  readonly changes: (count: number) => Promise<readonly LiveChange[]>
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

async function opened(): Promise<RunningService> {
  const service = await runService({ now: () => Instant.parse(present) })
  await openUnit(service)
  await record(service, 'machine-registered', '06:00', {
    machine: 'machine:s1',
    name: 'Steriliser 1',
    type: 'steamSteriliser',
    airRemoval: 'gravity',
    chamberLitres: 60,
    programs: ['porous-134'],
  })
  return service
}

const leak = (minute: number) =>
  entryOf('leak-tested', `08:${String(minute).padStart(2, '0')}`, {
    machine: 'machine:s1',
    startKPa: 7,
    endKPa: 7.2,
    seconds: 600,
    stabilisationSeconds: 300,
  } as never)

test('every kept entry is told once, in order, with its subjects', async () => {
  await using service = await opened()
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

test('a screen that comes back misses nothing', async () => {
  await using service = await opened()
  const before = await headOf(service)
  await service.ask('POST', '/api/entries', [leak(1), leak(2), leak(3)])
  using following = await follow(service, before + 1)
  await service.ask('POST', '/api/entries', leak(4))
  assert.deepEqual(
    (await following.changes(3)).map((change) => change.seq),
    [before + 2, before + 3, before + 4],
  )
})

test('a failure alarms in words: growth, and a fact that a rule would have stopped', async () => {
  await using service = await opened()
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

test('what another process writes into the same file is told too', async () => {
  await using service = await opened()
  using following = await follow(service)
  await using other = await openJournal({
    at: { kind: 'sqlite', file: service.file },
    road: theRoad,
    now: () => Instant.parse(present),
  })
  await other.append(leak(9) as never)
  assert.equal((await following.changes(1)).length, 1)
})

test('50 at once are all kept, in one unbroken chain', async () => {
  await using service = await opened()
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
