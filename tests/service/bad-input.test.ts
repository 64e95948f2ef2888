import assert from 'node:assert/strict'
import { request } from 'node:http'
import { after, before, test } from 'node:test'
import { Instant } from '#road/instant.ts'
import { runService, type RunningService } from '../support/running-service.ts'
import { at, entryOf, headOf, openUnit, present, record } from './hand.ts'

let service: RunningService

before(async () => {
  service = await runService({
    now: () => Instant.parse(present),
    environment: { NILGROWTH_ENTRIES_LIMIT: '65536', NILGROWTH_ATTACHMENT_LIMIT: '65536' },
  })
  await openUnit(service)
  await record(service, 'machine-registered', '06:00', {
    machine: 'machine:s1',
    name: 'Steriliser 1',
    type: 'steamSteriliser',
    airRemoval: 'gravity',
    chamberLitres: 60,
    programs: ['porous-134'],
  })
  await record(service, 'load-built', '07:00', {
    load: 'load:l1',
    machine: 'machine:s1',
    program: 'porous-134',
    purpose: 'goods',
    rounds: [],
  })
})

after(async () => {
  await service.close()
})

interface Bad {
  readonly name: string
  readonly method: string
  readonly path: string
  readonly body?: string | Uint8Array<ArrayBuffer>
  readonly type?: string
  readonly status: number
  /** What the one problem must say, beside its remedy. */
  readonly says: RegExp
}

const json = (value: unknown): string => JSON.stringify(value)
const post = (name: string, body: unknown, status: number, says: RegExp): Bad => ({
  name,
  method: 'POST',
  path: '/api/entries',
  body: typeof body === 'string' ? body : json(body),
  status,
  says,
})
const leak = (over: Record<string, unknown>) =>
  entryOf('leak-tested', '08:00', { machine: 'machine:s1', startKPa: 7, endKPa: 8, seconds: 600, ...over } as never)
const warmed = (celsius: number) => entryOf('bath-warmed', '09:00', { bath: 'bath:b', celsius } as never)
const wash = entryOf('wash-recorded', '09:00', { wash: 'wash:w9', rounds: ['round:none'], how: {} } as never)
const readLog = (over: Record<string, unknown>): string =>
  json({ log: { text: 'a,b\n1,2\n' }, program: 'porous-134', ...over })
const noDigest = 'ab'.repeat(32)

const table: readonly Bad[] = [
  post('malformed JSON', '{"id": ', 400, /JSON/),
  post('nothing', '', 400, /JSON/),
  post('not an object', '42', 422, /object/),
  post('a poisoned object', '{"__proto__": {"x": 1}}', 400, /JSON/),
  post(
    'deeply nested body',
    json(leak({})).replace('"machine:s1"', '['.repeat(9000) + ']'.repeat(9000)),
    422,
    /levels/,
  ),
  ...['/api/workings/a0', '/api/cycle-logs/read', '/api/unit', '/api/loads/load:l1/cycle'].map((path) => ({
    ...post(`deep JSON to ${path}`, '['.repeat(30_000) + ']'.repeat(30_000), 422, /at most 64 levels/),
    path,
  })),
  post(
    'an id in capitals',
    { ...leak({}), id: leak({}).id.toUpperCase() },
    422,
    /id: wanted a UUID of version 7 in small/,
  ),
  post('wrong type', leak({ seconds: 'ten' }), 422, /body\.seconds: wanted number, current value is "ten"/),
  post(
    'wrong unit: gauge pressure',
    leak({ startKPa: -94 }),
    422,
    /body\.startKPa: wanted number >= 0, current value is -94/,
  ),
  post('a bath of ice', warmed(-1), 422, /body\.celsius: wanted number >= 0, current value is -1/),
  post('a bath of steam', warmed(121), 422, /body\.celsius: wanted number <= 100, current value is 121/),
  post('a unit of another name', leak({ startMbar: 70 }), 422, /startMbar: wanted no such field/),
  post('time without milliseconds', { ...leak({}), happenedAt: '2026-06-10T08:00:00Z' }, 422, /happenedAt/),
  post('time in another zone', { ...leak({}), happenedAt: '2026-06-10T08:00:00.000+02:00' }, 422, /happenedAt/),
  post('no such day', { ...leak({}), happenedAt: '2026-02-30T08:00:00.000Z' }, 422, /happenedAt/),
  post(
    'time to come',
    { ...leak({}), happenedAt: '2027-01-01T08:00:00.000Z' },
    422,
    /happenedAt: wanted at most 5 minutes/,
  ),
  post('unknown subject', leak({ machine: 'machine:none' }), 422, /machine:none/),
  post('unknown person', { ...leak({}), by: 'person:none' }, 422, /by: wanted a person/),
  post('subject of another kind', leak({ machine: 'load:l1' }), 422, /body\.machine: wanted "machine:"/),
  post('unknown kind', { ...leak({}), kind: 'coffee-made' }, 422, /kind/),
  post('an id that is no UUIDv7', { ...leak({}), id: '1' }, 422, /id/),
  post('another site', { ...leak({}), site: 'elsewhere' }, 422, /site: wanted "unit"/),
  post(
    'a made-up log',
    entryOf('cycle-logged', '09:00', madeUpCycle() as never),
    422,
    /body\.log: wanted the digest of a kept file/,
  ),
  post('no form of wash', wash, 422, /body\.how/),
  post('oversized body', `"${'x'.repeat(70_000)}"`, 413, /at most 65536 bytes/),
  post('too many at once', `[${'0,'.repeat(1000)}0]`, 422, /1000 entries/),
  { ...post('wrong media type', leak({}), 415, /Content-Type: wanted application\/json/), type: 'text/plain' },
  { ...post('no media type', leak({}), 415, /Content-Type/), type: '' },
  { ...post('judge: wrong type', leak({ seconds: 'ten' }), 422, /body\.seconds/), path: '/api/entries/judge' },
  { name: 'unknown route', method: 'GET', path: '/api/coffee', status: 404, says: /GET \/api\/coffee/ },
  {
    name: 'wrong method',
    method: 'DELETE',
    path: '/api/entries',
    status: 405,
    says: /wanted GET or POST, current value is DELETE/,
  },
  {
    name: 'wrong method on a value',
    method: 'PUT',
    path: '/api/known/load:l1',
    status: 405,
    says: /wanted GET, current/,
  },
  {
    name: 'unknown query',
    method: 'GET',
    path: '/api/known?kind=load&colour=red',
    status: 422,
    says: /colour: wanted no such field/,
  },
  {
    name: 'unknown kind of subject',
    method: 'GET',
    path: '/api/known?kind=tea',
    status: 422,
    says: /kind: wanted one of/,
  },
  {
    name: 'bad limit',
    method: 'GET',
    path: '/api/entries?limit=-1',
    status: 422,
    says: /limit: wanted a whole number from 1 to 1000/,
  },
  { name: 'bad cursor', method: 'GET', path: '/api/known?kind=load&after=x', status: 422, says: /after/ },
  { name: 'no subject', method: 'GET', path: '/api/known/tea', status: 422, says: /subject: wanted a subject/ },
  { name: 'unknown subject to read', method: 'GET', path: '/api/known/load:none', status: 404, says: /load:none/ },
  { name: 'unknown subject to trace', method: 'GET', path: '/api/trace/load:none', status: 404, says: /load:none/ },
  { name: 'no direction', method: 'GET', path: '/api/trace/load:l1?direction=up', status: 422, says: /direction/ },
  {
    name: 'unknown entry',
    method: 'GET',
    path: '/api/entries/01900000-0000-7000-8000-000000000000',
    status: 404,
    says: /id of a kept entry/,
  },
  { name: 'no file of that digest', method: 'GET', path: `/api/attachments/${noDigest}`, status: 404, says: /digest/ },
  { name: 'an address that cannot be decoded', method: 'GET', path: '/api/known/%E0%A4%A', status: 400, says: /./ },
  {
    name: 'oversized file',
    method: 'PUT',
    path: '/api/attachments',
    type: 'text/csv',
    body: new Uint8Array(70_000),
    status: 413,
    says: /65536/,
  },
  {
    name: 'empty file',
    method: 'PUT',
    path: '/api/attachments',
    type: 'text/csv',
    body: '',
    status: 422,
    says: /at least one byte/,
  },
  {
    name: 'file of no type',
    method: 'PUT',
    path: '/api/attachments',
    type: 'x',
    body: 'a',
    status: 415,
    says: /type of the file/,
  },
  { name: 'unknown working', method: 'POST', path: '/api/workings/tea', body: '{}', status: 404, says: /tea/ },
  {
    name: 'bad input of a working',
    method: 'POST',
    path: '/api/workings/a0',
    body: '{"samples": 1}',
    status: 422,
    says: /samples: wanted array/,
  },
  { name: 'malformed log', method: 'POST', path: '/api/cycle-logs/read', body: readLog({}), status: 422, says: /log/ },
  {
    name: 'binary log',
    method: 'POST',
    path: '/api/cycle-logs/read',
    body: readLog({ log: { text: 'a\u0000b' } }),
    status: 422,
    says: /log/,
  },
  {
    name: 'unknown programme',
    method: 'POST',
    path: '/api/cycle-logs/read',
    body: readLog({ program: 'hot' }),
    status: 422,
    says: /program: wanted one of/,
  },
  {
    name: 'bad map',
    method: 'POST',
    path: '/api/cycle-logs/read',
    body: readLog({ map: { time: 1 } }),
    status: 422,
    says: /map\.time/,
  },
  {
    name: 'log by unknown digest',
    method: 'POST',
    path: '/api/cycle-logs/read',
    body: readLog({ log: { digest: noDigest } }),
    status: 404,
    says: /digest/,
  },
  {
    name: 'malformed log of a load',
    method: 'POST',
    path: '/api/loads/load:l1/cycle',
    body: loadCycle(),
    status: 422,
    says: /log/,
  },
  {
    name: 'log of an unknown load',
    method: 'POST',
    path: '/api/loads/load:none/cycle',
    body: loadCycle(),
    status: 404,
    says: /load:none/,
  },
  {
    name: 'chart of a load without a cycle',
    method: 'GET',
    path: '/api/loads/load:l1/chart',
    status: 404,
    says: /cycle is logged/,
  },
  {
    name: 'set up twice',
    method: 'POST',
    path: '/api/unit',
    body: '{"choice":"demonstration"}',
    status: 409,
    says: /without entries/,
  },
  {
    name: 'no time zone',
    method: 'POST',
    path: '/api/unit',
    body: json({ choice: 'empty', name: 'A', timeZone: 'Mars', manager: 'B' }),
    status: 422,
    says: /timeZone: wanted a time zone/,
  },
  { name: 'bad place to resume', method: 'GET', path: '/api/live?after=x', status: 422, says: /after/ },
]

function madeUpCycle() {
  const none = null
  return {
    load: 'load:l1',
    program: 'porous-134',
    startedAt: at('08:00'),
    endedAt: at('08:40'),
    log: noDigest,
    report: {
      verdict: 'met',
      holdingSeconds: 180,
      equilibrationSeconds: none,
      fMinutes: none,
      fReferenceC: 121,
      zK: 10,
      minC: none,
      maxC: none,
      maxSpreadK: none,
      criteria: [],
      findings: [],
    },
  }
}

function loadCycle(): string {
  return json({
    id: entryOf('leak-tested', '08:00', {} as never).id,
    by: 'person:ada',
    workstation: 'M',
    text: 'no log',
    program: 'porous-134',
    startedAt: at('08:00'),
  })
}

for (const bad of table) {
  test(`${bad.name}: one clear problem, nothing written`, async () => {
    const before = await headOf(service)
    const headers: Record<string, string> =
      bad.body === undefined ? {} : { 'content-type': bad.type ?? 'application/json' }
    const answer = await plainRequest(`${service.url}${bad.path}`, { method: bad.method, headers, body: bad.body })
    assert.equal(answer.status, bad.status, answer.text)
    assert.equal(answer.type, 'application/problem+json')
    const problem = JSON.parse(answer.text) as Record<string, unknown>
    for (const field of ['type', 'title', 'detail', 'remedy']) assert.equal(typeof problem[field], 'string', field)
    assert.equal(problem['status'], bad.status)
    assert.match(String(problem['detail']), bad.says)
    assert.doesNotMatch(answer.text, /node_modules|\.ts:\d|at .*\(/, 'nothing of the inside is told')
    assert.equal(await headOf(service), before)
  })
}

test('a list with a bad entry keeps the good ones and says which was not kept', async () => {
  const before = await headOf(service)
  const good = leak({})
  const answer = await service.ask('POST', '/api/entries', [
    good,
    { ...leak({}), kind: 'coffee-made' },
    good,
    leak({ seconds: 601 }),
  ])
  assert.equal(answer.status, 200)
  assert.deepEqual(
    (answer.body as { outcome: string }[]).map((each) => each.outcome),
    ['kept', 'unusable', 'alreadyKept', 'kept'],
  )
  assert.equal(await headOf(service), before + 2)
})

test('a failure of ours gives its number and nothing else, and the log has both', async () => {
  const broken = await runService()
  await broken.journal.close()
  const answer = await broken.ask('GET', '/api/health')
  assert.equal(answer.status, 500)
  const { instance, detail } = answer.body as { instance: string; detail: string }
  assert.match(detail, new RegExp(instance))
  assert.equal(broken.log.length, 1)
  assert.match(broken.log[0] ?? '', new RegExp(`failure ${instance} at GET /api/health`))
  assert.doesNotMatch(JSON.stringify(answer.body), /sqlite|database/i)
  await broken.close()
})

interface Plain {
  readonly status: number
  readonly type: string
  readonly text: string
}

/** Without fetch, which mends addresses and headers before it sends them. */
async function plainRequest(
  address: string,
  {
    method,
    headers,
    body,
  }: { readonly method: string; readonly headers: Record<string, string>; readonly body: Bad['body'] },
): Promise<Plain> {
  return await new Promise((resolve, reject) => {
    const sent = request(address, { method, headers }, (response) => {
      const chunks: Buffer[] = []
      response.on('data', (chunk: Buffer) => chunks.push(chunk))
      response.on('end', () =>
        resolve({
          status: response.statusCode ?? 0,
          type: response.headers['content-type'] ?? '',
          text: Buffer.concat(chunks).toString('utf8'),
        }),
      )
    })
    sent.on('error', reject)
    sent.end(body)
  })
}
