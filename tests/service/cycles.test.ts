import assert from 'node:assert/strict'
import { createHash } from 'node:crypto'
import { after, before, test } from 'node:test'
import { v7 } from 'uuid'
import { Instant } from '#road/instant.ts'
import { diceOf } from '#demo/dice.ts'
import { shortHoldCycle, soundCycle, steamLogText } from '#demo/steam-log.ts'
import { washerRun } from '#demo/washer-log.ts'
import type { CycleLogAnswer, CycleReading } from '#service/api-types.ts'
import { runService, type RunningService } from '../support/running-service.ts'
import { at, entryOf, headOf, keepLog, openUnit, present, record } from './hand.ts'

const logMap = {
  time: { column: 'elapsed', format: 'seconds' },
  pressure: { column: 'chamber pressure', unit: 'kPa', gauge: false },
  reference: { column: 'drain', unit: 'C' },
} as const
const sound = steamLogText(diceOf(1)('sound'), soundCycle).text
const short = steamLogText(diceOf(1)('short'), shortHoldCycle).text

let service: RunningService

before(async () => {
  service = await runService({ now: () => Instant.parse(present) })
  await openUnit(service)
  await record(service, 'machine-registered', '06:00', {
    machine: 'machine:s1',
    name: 'Steriliser 1',
    type: 'steamSteriliser',
    airRemoval: 'gravity',
    chamberLitres: 450,
    programs: ['porous-134'],
    logMap,
  })
  for (const load of ['load:l1', 'load:l2', 'load:l3'] as const) {
    await record(service, 'load-built', '07:00', {
      load,
      machine: 'machine:s1',
      program: 'porous-134',
      purpose: 'goods',
      rounds: [],
    })
  }
})

after(async () => {
  await service.close()
})

const keep = (text: string): Promise<string> => keepLog(service, text)

async function readBy(log: object): Promise<CycleLogAnswer> {
  const answer = await service.ask('POST', '/api/cycle-logs/read', {
    log,
    program: 'porous-134',
    machine: 'machine:s1',
  })
  assert.equal(answer.status, 200, JSON.stringify(answer.body))
  return answer.body as CycleLogAnswer
}

test('PUT /api/attachments keeps bytes by their digest and gives them back unchanged, to be saved and not shown', async () => {
  const digest = await keep(sound)
  assert.equal(await keep(sound), digest)
  const response = await fetch(`${service.url}/api/attachments/${digest}`)
  assert.equal(response.headers.get('content-type'), 'text/csv')
  assert.match(response.headers.get('content-disposition') ?? '', /^attachment/)
  assert.equal(await response.text(), sound)
})

test('a log is read the same by its text and by its digest, with the map of the machine', async () => {
  const byText = await readBy({ text: sound })
  assert.deepEqual(await readBy({ digest: await keep(sound) }), byText)
  assert.equal(byText.cycles.length, 1)
  assert.equal(byText.cycles[0]?.report.verdict, 'met')
  assert.equal((await readBy({ text: short })).cycles[0]?.report.verdict, 'notMet')
})

/** The length that a log gives its cycle, from 08:00 on. */
function endOf(read: CycleReading): string {
  const { phases } = read.chart
  const seconds = (phases.at(-1)?.endSeconds ?? 0) - (phases[0]?.startSeconds ?? 0)
  return new Date(Date.parse(at('08:00')) + seconds * 1000).toISOString()
}

function cycleEntry(load: 'load:l2' | 'load:l3', log: string, read: CycleReading, report: object = read.report) {
  return entryOf('cycle-logged', '09:00', {
    load,
    program: 'porous-134',
    startedAt: at('08:00'),
    endedAt: endOf(read),
    log,
    logMap,
    cycleInLog: 1,
    report,
  } as never)
}

test('a report that is not what the log gives is refused, and the figure is named', async () => {
  const log = await keep(short)
  const read = (await readBy({ digest: log })).cycles[0]
  assert.ok(read)
  const before = await headOf(service)
  const madeUp = { ...read.report, verdict: 'met', holdingSeconds: 200 }
  const answer = await service.ask('POST', '/api/entries', cycleEntry('load:l2', log, read, madeUp))
  assert.equal(answer.status, 422)
  const { problems } = answer.body as { problems: { field: string }[] }
  assert.deepEqual(
    problems.map((problem) => problem.field),
    ['body.report.verdict', 'body.report.holdingSeconds'],
  )
  assert.equal(await headOf(service), before)
})

test('a cycle that is said to be longer or shorter than its log is refused', async () => {
  const log = await keep(sound)
  const read = (await readBy({ digest: log })).cycles[0]
  assert.ok(read)
  const entry = cycleEntry('load:l2', log, read)
  for (const endedAt of [at('07:00'), at('08:01'), at('23:00')]) {
    const answer = await service.ask('POST', '/api/entries', { ...entry, body: { ...entry.body, endedAt } })
    assert.equal(answer.status, 422)
    assert.deepEqual(
      (answer.body as { problems: { field: string }[] }).problems.map((problem) => problem.field),
      ['body.endedAt'],
    )
  }
})

test('the report that the log gives is kept', async () => {
  const log = await keep(short)
  const read = (await readBy({ digest: log })).cycles[0]
  assert.ok(read)
  const entry = cycleEntry('load:l2', log, read)
  assert.equal((await service.ask('POST', '/api/entries', entry)).status, 201)
  assert.equal((await service.ask('POST', '/api/entries', entry)).status, 200)
})

test('a log that names no moment needs one, and nothing is kept without it', async () => {
  const cycle = { id: v7(), by: 'person:ada', workstation: 'M', text: sound, program: 'porous-134' }
  const answer = await service.ask('POST', '/api/loads/load:l3/cycle', cycle)
  assert.equal(answer.status, 422)
  assert.match(JSON.stringify(answer.body), /startedAt: wanted the moment of the first reading/)
})

test('a log whose entry cannot be kept is not kept either', async () => {
  const text = steamLogText(diceOf(1)('by a stranger'), soundCycle).text
  const cycle = { id: v7(), by: 'person:none', workstation: 'M', text, program: 'porous-134', startedAt: at('12:00') }
  const answer = await service.ask('POST', '/api/loads/load:l3/cycle', cycle)
  assert.equal(answer.status, 422)
  assert.match(JSON.stringify(answer.body), /by: wanted a person who is known/)
  const digest = createHash('sha256').update(text).digest('hex')
  assert.equal((await service.ask('GET', `/api/attachments/${digest}`)).status, 404)
})

test('a log with date, time and zone gives its own moments', async () => {
  const start = Date.parse(at('12:00'))
  const lines = sound.trimEnd().split('\n')
  const dated = lines.map((line, place) => {
    const [elapsed, ...rest] = line.split(',')
    return place < 2
      ? line.replace('s,', ',')
      : [new Date(start + Number(elapsed) * 1000).toISOString(), ...rest].join(',')
  })
  const cycle = {
    id: v7(),
    by: 'person:ada',
    workstation: 'M',
    text: `${dated.join('\n')}\n`,
    program: 'porous-134',
    map: { ...logMap, time: { column: 'elapsed', format: 'iso' } },
  }
  const answer = await service.ask('POST', '/api/loads/load:l3/cycle', cycle)
  assert.equal(answer.status, 201, JSON.stringify(answer.body))
  const { body } = (answer.body as { entry: { body: { startedAt: string; report: { verdict: string } } } }).entry
  assert.ok(Math.abs(Date.parse(body.startedAt) - start) < 300_000, body.startedAt)
  assert.equal(body.report.verdict, 'met')
})

test('the A0 of a washer log is not more than the log gives', async () => {
  await record(service, 'machine-registered', '06:05', {
    machine: 'machine:w1',
    name: 'Washer',
    type: 'washer',
    airRemoval: 'none',
    chamberLitres: 300,
    programs: ['hot'],
  })
  await record(service, 'device-registered', '06:06', {
    device: 'device:d1',
    name: 'Scissors',
    contact: 'critical',
    steam: 'allowed',
    lumens: [],
    parts: 1,
    insulated: false,
    optic: false,
    singleUse: false,
  })
  await record(service, 'set-registered', '06:07', {
    set: 'set:s1',
    name: 'Scissors',
    countSheet: [{ device: 'device:d1', count: 1 }],
  })
  await record(service, 'reprocessing-started', '06:30', { round: 'round:r1', set: 'set:s1', because: 'newSet' })
  const run = washerRun(diceOf(1)('wash'))
  const log = await keep(run.text)
  const wash = (a0Seconds: number) =>
    entryOf('wash-recorded', '07:30', {
      wash: 'wash:w1',
      rounds: ['round:r1'],
      how: {
        kind: 'washer',
        machine: 'machine:w1',
        program: 'hot',
        takenApart: true,
        log,
        a0Seconds,
        coldestChannel: 'rinse water',
      },
    } as never)
  const tooMuch = await service.ask('POST', '/api/entries', wash(run.a0Seconds + 100))
  assert.equal(tooMuch.status, 422)
  assert.match(JSON.stringify(tooMuch.body), /body\.how\.a0Seconds: wanted at most/)
  const right = await service.ask('POST', '/api/entries', wash(run.a0Seconds))
  assert.equal(right.status, 201, JSON.stringify(right.body))
})

test('nothing has failed on the way', () => assert.deepEqual(service.log, []))
