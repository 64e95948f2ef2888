import assert from 'node:assert/strict'
import { once } from 'node:events'
import { connect } from 'node:net'
import { test } from 'node:test'
import type { ApiProblem } from '#service/api-types.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { headOf } from './hand.ts'

interface RawAnswer {
  readonly status: number
  readonly type: string
  readonly problem: ApiProblem | undefined
}

/** Asks with exactly these header lines: no client of HTTP would send some of them. */
async function ask(service: RunningService, first: string, lines: readonly string[], body = ''): Promise<RawAnswer> {
  const socket = connect(Number(new URL(service.url).port), '127.0.0.1')
  await once(socket, 'connect')
  const length = body === '' ? [] : ['Content-Type: application/json', `Content-Length: ${Buffer.byteLength(body)}`]
  socket.write([first, ...lines, ...length, 'Connection: close', '', body].join('\r\n'))
  let text = ''
  for await (const chunk of socket) text += String(chunk)
  const [head = '', ...rest] = text.split('\r\n\r\n')
  const type = /^content-type: (.*)$/im.exec(head)?.[1] ?? ''
  return {
    status: Number(/^HTTP\/1\.1 (\d+)/.exec(head)?.[1]),
    type,
    problem: type.startsWith('application/problem+json') ? (JSON.parse(rest.join('')) as ApiProblem) : undefined,
  }
}

const get = 'GET /api/unit HTTP/1.1'

test('exactly one Host that is ours is answered, in any spelling', async () => {
  await using service = await runService()
  const { port } = new URL(service.url)
  for (const host of [`localhost:${port}`, `127.0.0.1:${port}`, `[::1]:${port}`, 'LOCALHOST']) {
    assert.equal((await ask(service, get, [`Host: ${host}`])).status, 200, host)
  }
})

const refused: readonly { readonly name: string; readonly lines: readonly string[]; readonly current: string }[] = [
  {
    name: 'two of them',
    lines: ['Host: localhost', 'Host: other.example'],
    current: '"localhost" and "other.example"',
  },
  { name: 'two alike', lines: ['Host: localhost', 'host: localhost'], current: '"localhost" and "localhost"' },
  { name: 'none', lines: [], current: 'missing' },
  { name: 'an empty one', lines: ['Host:'], current: '""' },
  { name: 'one with a path', lines: ['Host: localhost/x'], current: '"localhost/x"' },
  { name: 'one with a user', lines: ['Host: me@localhost'], current: '"me@localhost"' },
]

for (const { name, lines, current } of refused) {
  test(`Host, ${name}: refused with what was wanted`, async () => {
    await using service = await runService()
    const { status, type, problem } = await ask(service, get, lines)
    assert.equal(status, 400)
    assert.equal(type, 'application/problem+json')
    assert.equal(problem?.type, '/problems/unclear-host')
    assert.deepEqual(problem?.problems, [{ field: 'Host', wanted: 'one header, such as localhost:4640', current }])
  })
}

test('Host, none in HTTP/1.0: refused too', async () => {
  await using service = await runService()
  const { status, problem } = await ask(service, 'GET /api/unit HTTP/1.0', [])
  assert.equal(status, 400)
  assert.equal(problem?.type, '/problems/unclear-host')
})

test('Host, a foreign one as after DNS rebinding: refused with what was wanted, and nothing is written', async () => {
  await using service = await runService()
  const choice = JSON.stringify({ choice: 'empty', name: 'A', timeZone: 'UTC', manager: 'Ada' })
  const lines = ['Host: rebound.example', 'Origin: http://rebound.example']
  const { status, type, problem } = await ask(service, 'POST /api/unit HTTP/1.1', lines, choice)
  assert.equal(status, 400)
  assert.equal(type, 'application/problem+json')
  assert.equal(problem?.type, '/problems/foreign-host')
  assert.deepEqual(problem?.problems, [{ field: 'Host', wanted: 'localhost', current: '"rebound.example"' }])
  assert.deepEqual((await service.ask('GET', '/api/unit')).body, { state: 'new' })
  assert.equal(await headOf(service), 0)
})

test('a service that is open to the network wants exactly one Host as well', async () => {
  const environment = { HOST: '0.0.0.0', NILGROWTH_SIGN_IN: 'required', NILGROWTH_PLAIN_HTTP: 'allowed' }
  await using service = await runService({ environment })
  assert.equal((await ask(service, get, ['Host: unit.example'])).status, 200)
  assert.equal((await ask(service, get, ['Host: unit.example', 'Host: localhost'])).status, 400)
})
