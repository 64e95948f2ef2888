import assert from 'node:assert/strict'
import { execFile } from 'node:child_process'
import { mkdirSync, mkdtempSync, renameSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { connect, type Socket } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, before, test } from 'node:test'
import { setTimeout as sleep } from 'node:timers/promises'
import { promisify } from 'node:util'
import { v7 } from 'uuid'
import { instant } from '#road/instant.ts'
import { diceOf } from '#demo/dice.ts'
import { shortHoldCycle, soundCycle, steamLogText } from '#demo/steam-log.ts'
import type { ArrivalRow, ArrivalsAnswer, ConnectionAnswer, RunningAnswer } from '#service/machine-answers.ts'
import type { LiveChange } from '#service/api-types.ts'
import { runService, type RunningService } from '../support/running-service.ts'
import { freePort } from '../support/free-port.ts'

const logMap = {
  time: { column: 'elapsed', format: 'seconds' },
  pressure: { column: 'chamber pressure', unit: 'kPa', gauge: false },
  reference: { column: 'drain', unit: 'C' },
} as const
const logOf = (name: string) => steamLogText(diceOf(3)(name), soundCycle).text
const workedMinutes = 40
const main = join(import.meta.dirname, '../../src/cli/main.ts')

let folder: string
let service: RunningService
let environment: Record<string, string>

before(async () => {
  folder = mkdtempSync(join(tmpdir(), 'nilgrowth-intake-'))
  for (const name of ['a', 'b', 'elsewhere']) mkdirSync(join(folder, 'root', name), { recursive: true })
  environment = {
    NILGROWTH_MACHINE_FOLDERS: join(folder, 'root'),
    NILGROWTH_MACHINE_LISTEN: '127.0.0.1',
    NILGROWTH_MACHINE_QUIET: '2',
  }
  service = await open()
  await service.ask('POST', '/api/unit', { choice: 'empty', name: 'Harbour Road', timeZone: 'UTC', manager: 'Ada' })
  for (const key of ['a', 'b'])
    await record('machine-registered', 90, {
      machine: `machine:${key}`,
      name: `Steriliser ${key}`,
      type: 'steamSteriliser',
      airRemoval: 'gravity',
      chamberLitres: 450,
      programs: ['porous-134'],
      logMap,
    })
})

after(async () => {
  await service.close()
  rmSync(folder, { recursive: true, force: true })
})

function open(): Promise<RunningService> {
  return runService({ environment, folder })
}

/** Records a fact of some minutes ago. */
async function record(kind: string, minutesAgo: number, body: object): Promise<void> {
  const happenedAt = instant(Date.now() - minutesAgo * 60_000)
  const entry = { id: v7(), site: 'unit', kind, happenedAt, by: 'person:ada', workstation: 'Test bench', body }
  const answer = await service.ask('POST', '/api/entries', entry)
  assert.equal(answer.status, 201, JSON.stringify(answer.body))
}

const build = (load: string, key: string, minutesAgo = workedMinutes) =>
  record('load-built', minutesAgo, {
    load: `load:${load}`,
    machine: `machine:${key}`,
    program: 'porous-134',
    purpose: 'goods',
    rounds: [],
  })

async function put(key: string, connection: object) {
  return await service.ask('PUT', `/api/machines/machine:${key}/connection`, { by: 'person:ada', connection })
}

async function arrivals(key: string): Promise<readonly ArrivalRow[]> {
  const { body } = await service.ask('GET', `/api/machines/machine:${key}/arrivals`)
  return (body as ArrivalsAnswer).arrivals
}

/** Asks until it is so, and says what was there when it never is. */
async function until<T>(what: string, ask: () => Promise<T>, isSo: (value: T) => boolean): Promise<T> {
  for (let tries = 0; tries < 150; tries += 1) {
    const value = await ask()
    if (isSo(value)) return value
    await sleep(100)
  }
  throw new Error(`${what} did not come: ${JSON.stringify(await ask())}`)
}

const named = (key: string, name: string) =>
  until(
    `${name} from ${key}`,
    async () => (await arrivals(key)).find((row) => row.name === name),
    (row) => row !== undefined,
  ) as Promise<ArrivalRow>

const lineOf = (port: number, more: object = {}) => ({
  folder: null,
  line: {
    address: '127.0.0.1',
    port,
    from: null,
    startMark: null,
    endMark: 'END OF CYCLE',
    silenceSeconds: 5,
    ...more,
  },
})

const dial = (port: number) =>
  new Promise<Socket>((resolve, reject) => {
    const socket = connect(port, '127.0.0.1', () => resolve(socket))
    socket.on('error', reject)
  })

test('connection: nothing is watched or heard that the service was not configured for', async () => {
  symlinkSync(join(folder, 'root', 'elsewhere'), join(folder, 'root', 'link'))
  for (const path of ['../root/a', '/etc', 'link', 'a/../b', 'missing', 'a\\..\\..']) {
    const { status, body } = await put('a', { folder: path, line: null })
    assert.equal(status, 422, path)
    assert.match(JSON.stringify(body), /"field":"folder"/, path)
  }
  const elsewhere = await put('a', lineOf(4201, { address: '0.0.0.0' }))
  assert.equal(elsewhere.status, 422)
  assert.match(JSON.stringify(elsewhere.body), /NILGROWTH_MACHINE_LISTEN: 127\.0\.0\.1/)
})

test('folder: a whole file is kept once, and a person reads it in for the load that waits', async () => {
  const watched = await put('a', { folder: 'a', line: null })
  assert.equal(watched.status, 200, JSON.stringify(watched.body))
  await build('l1', 'a')
  const text = logOf('l1')
  writeFileSync(join(folder, 'root', 'a', 'c1.csv.tmp'), text)
  renameSync(join(folder, 'root', 'a', 'c1.csv.tmp'), join(folder, 'root', 'a', 'c1.csv'))
  symlinkSync('/etc/passwd', join(folder, 'root', 'a', 'passwd.csv'))
  writeFileSync(join(folder, 'root', 'a', 'picture.csv'), Buffer.from([0, 1, 2, 0xff, 0xfe, 0, 7]))
  writeFileSync(join(folder, 'root', 'a', 'copy-of-c1.csv'), text)
  const row = (await until(
    'the log',
    async () => (await arrivals('a')).find(({ problem }) => problem === null),
    (each) => each !== undefined,
  )) as ArrivalRow
  assert.ok(['c1.csv', 'copy-of-c1.csv'].includes(row.name))
  assert.deepEqual(
    row.proposals.map(({ load }) => load),
    ['load:l1'],
  )
  const aside = await named('a', 'picture.csv')
  assert.match(aside.problem ?? '', /wanted .*current value is/)
  assert.equal((await service.ask('GET', `/api/attachments/${aside.log}`)).status, 200, 'it is kept')
  assert.equal((await arrivals('a')).length, 2, 'the copy is no other log, and the link is none')
  // Nothing is attached by itself.
  const cycle = async () =>
    ((await service.ask('GET', '/api/known/load:l1')).body as { state: { cycle: unknown } }).state.cycle
  assert.equal(await cycle(), null)
  const asked = {
    id: v7(),
    by: 'person:ada',
    workstation: 'Test bench',
    arrived: row.log,
    program: 'porous-134',
    startedAt: row.firstReadingAt,
  }
  const read = await service.ask('POST', '/api/loads/load:l1/cycle', asked)
  assert.equal(read.status, 201, JSON.stringify(read.body))
  assert.equal(((await cycle()) as { log: string }).log, row.log)
  const taken = await until(
    'the load',
    async () => (await arrivals('a')).find((each) => each.id === row.id),
    (each) => each?.takenBy.length === 1,
  )
  assert.deepEqual([taken?.takenBy, taken?.proposals], [['load:l1'], []])
})

test('folder: a log of one machine is not read in for a load of another', async () => {
  await build('l2', 'b')
  const [row] = (await arrivals('a')).filter((each) => each.problem === null)
  const { status, body } = await service.ask('POST', '/api/loads/load:l2/cycle', {
    id: v7(),
    by: 'person:ada',
    workstation: 'Test bench',
    arrived: row?.log,
    program: 'porous-134',
    startedAt: instant(Date.now() - 35 * 60_000),
  })
  assert.equal(status, 422)
  assert.match(JSON.stringify(body), /came from the machine of this load/)
})

test('line: two machines print at once, over many packets with garbage between, and each log is whole', async () => {
  const [one, two] = [await freePort(), await freePort()]
  assert.equal((await put('a', lineOf(one))).status, 200)
  assert.equal((await put('b', lineOf(two))).status, 200)
  const texts = [logOf('line a'), steamLogText(diceOf(3)('line b'), shortHoldCycle).text]
  const sockets = await Promise.all([dial(one), dial(two)])
  for (let part = 0; part < 12; part += 1) {
    for (const [index, socket] of sockets.entries()) {
      const bytes = Buffer.from(`${texts[index] ?? ''}END OF CYCLE\r\n`.replaceAll('\n', '\r\n'))
      const size = Math.ceil(bytes.length / 12)
      socket.write(bytes.subarray(part * size, (part + 1) * size))
      if (part % 4 === 0) socket.write(Buffer.from([0x00, 0x1b, 0x40, 0x07]))
    }
    await sleep(5)
  }
  for (const socket of sockets) socket.end()
  for (const key of ['a', 'b']) {
    const rows = await until(
      `the log of ${key}`,
      () => arrivals(key),
      (all) => all.some(({ from }) => from === 'line'),
    )
    const row = rows.find(({ from }) => from === 'line')
    assert.equal(row?.problem, null)
    assert.equal(row?.cycles.length, 1)
    const kept = await service.ask('GET', `/api/attachments/${row?.log}`)
    assert.equal(kept.status, 200)
  }
})

test('line: what was printed before the service ended is kept, and the running cycle is drawn and judged by nobody', async () => {
  const port = await freePort()
  assert.equal((await put('b', lineOf(port, { silenceSeconds: 7200 }))).status, 200)
  const lines = logOf('crash').split('\n')
  const half = Math.round(lines.length * 0.7)
  const socket = await dial(port)
  socket.on('error', () => {})
  socket.write(`${lines.slice(0, half).join('\n')}\n`)
  const running = async () =>
    ((await service.ask('GET', '/api/machines/machine:b/running')).body as RunningAnswer).running
  const drawn = await until('the running cycle', running, (each) => each?.lines === half)
  assert.equal(drawn?.reading?.verdict, 'notEvaluable')
  assert.ok((drawn?.reading?.criteria.length ?? 0) > 0)
  assert.ok(drawn?.reading?.criteria.every(({ result }) => result === 'notEvaluable'))
  socket.destroy()
  await service.close()
  service = await open()
  await until('the running cycle after it', running, (each) => each?.lines === half)
  const again = await until(
    'the port',
    () => dial(port).catch(() => null),
    (each) => each !== null,
  )
  again?.write(`${lines.slice(half).join('\n')}END OF CYCLE\n`)
  const row = await until(
    'the whole log',
    async () => (await arrivals('b')).find(({ note }) => note?.includes('begun again') === true),
    (each) => each !== undefined,
  )
  again?.destroy()
  assert.equal(row?.problem, null)
  const { body } = await service.ask('GET', `/api/attachments/${row?.log}`)
  assert.equal(String(body).trim(), `${lines.join('\n')}END OF CYCLE`.trim())
})

test('live: open screens are told when a machine prints', async () => {
  const port = await freePort()
  await put('b', lineOf(port))
  const gone = new AbortController()
  const stream = await fetch(`${service.url}/api/live`, { signal: gone.signal })
  const socket = await dial(port)
  socket.write('elapsed,chamber pressure,drain\n')
  let told = ''
  for await (const chunk of stream.body ?? []) {
    told += Buffer.from(chunk as Uint8Array).toString()
    if (told.includes('event: running')) break
  }
  gone.abort()
  socket.destroy()
  const data = /event: running\ndata: (.*)\n/.exec(told)?.[1] ?? '{}'
  assert.deepEqual(JSON.parse(data) as Partial<LiveChange>, { machine: 'machine:b' })
})

test('command line: connect and arrived do the same on the record', async () => {
  const run = async (...args: readonly string[]) =>
    (
      await promisify(execFile)(process.execPath, [main, ...args, '--data', service.file], {
        env: { ...process.env, ...environment },
      })
    ).stdout
  const shown = await run('connect', 'a', '--folder', 'b', '--by', 'ada', '--json')
  assert.equal((JSON.parse(shown) as ConnectionAnswer).connection.folder, 'b')
  await assert.rejects(run('connect', 'a', '--folder', '../..', '--by', 'ada'), /folder: wanted/)
  const rows = JSON.parse(await run('arrived', 'b', '--json')) as ArrivalRow[]
  const row = rows.find(({ proposals }) => proposals.some(({ load }) => load === 'load:l2'))
  assert.ok(row, 'load l2 is proposed')
  const kept = await run('arrived', 'b', '--log', row.id.slice(0, 12), '--load', 'l2', '--by', 'ada')
  assert.equal((JSON.parse(kept) as { outcome: string }).outcome, 'kept')
  assert.match(await run('arrived', 'b'), /read in for load:l2/)
})
