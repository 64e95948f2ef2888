import assert from 'node:assert/strict'
import { once } from 'node:events'
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { connect } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { test } from 'node:test'
import { gzipSync } from 'node:zlib'
import type { ApiProblem, MeAnswer } from '#service/api-types.ts'
import { runService, type RunningService } from '../support/running-service.ts'
import { sqliteService } from '../support/service-engines.ts'
import { passphraseOf, SignedUnit } from '../support/signed-unit.ts'
import { headOf, openUnit } from './hand.ts'

/* What somebody would try who wants to get past the door, each tried at a real service. */

/** Sends these very bytes, and gives the status of each answer that comes back. */
async function sendRaw(service: RunningService, bytes: string): Promise<readonly number[]> {
  const socket = connect(Number(new URL(service.url).port), '127.0.0.1')
  await once(socket, 'connect')
  socket.on('error', () => undefined)
  socket.end(bytes)
  let text = ''
  for await (const chunk of socket) text += String(chunk)
  return [...text.matchAll(/^HTTP\/1\.1 (\d+) /gm)].map(([, status]) => Number(status))
}

const typeOf = (body: unknown): string => (body as ApiProblem).type

test('given a session that was put into the browser before, when its owner signs in there, then the planted one is worth nothing', async () => {
  await using unit = await SignedUnit.open(sqliteService)
  const victim = await unit.person('Nora', ['theatre'])
  const planted = victim.copy()
  assert.equal((await unit.signIn(victim, 'Mira')).status, 200)
  const me = (await planted.ask('GET', '/api/me')).body as MeAnswer
  assert.equal(me.person, null)
})

for (const [name, headers] of [
  ['a form of another site', { 'content-type': 'application/x-www-form-urlencoded' }],
  ['text that is JSON, which no browser asks leave for', { 'content-type': 'text/plain' }],
  ['JSON of no type', { 'content-type': '' }],
  ['JSON from a page of another site', { 'content-type': 'application/json', origin: 'https://elsewhere.example' }],
  ['JSON from a page of no site', { 'content-type': 'application/json', origin: 'null' }],
  ['JSON from a file', { 'content-type': 'application/json', origin: 'file://' }],
  ['JSON from an extension', { 'content-type': 'application/json', origin: 'chrome-extension://abc' }],
] as const)
  test(`given ${name}, with the cookies of a manager, then nothing is done`, async () => {
    await using unit = await SignedUnit.open(sqliteService)
    const nurse = await unit.person('Nora', ['theatre'])
    const body = JSON.stringify({ name: 'Their tablet' })
    const said = await unit.manager.raw({ method: 'POST', path: '/api/devices', headers, body })
    assert.ok(said.status === 403 || said.status === 415, `${said.status}`)
    // A request without a body is told apart by where it comes from alone.
    if ('origin' in headers) {
      const path = '/api/accounts/person:nora/close'
      const closed = await unit.manager.raw({
        method: 'POST',
        path,
        headers: { origin: headers.origin },
        body: undefined,
      })
      assert.equal(closed.status, 403)
    }
    assert.equal((await nurse.ask('GET', '/api/unit')).status, 200)
    assert.deepEqual((await unit.manager.ask('GET', '/api/devices')).body, [])
  })

test('given an entry that brings its own signatures, place, hash or judgement, then none of it is taken', async () => {
  await using unit = await SignedUnit.open(sqliteService)
  const nurse = await unit.person('Nora', ['theatre'])
  const outlet = { outlet: 'outlet:sink', name: 'Sink', use: 'wash', treatment: 'none' }
  const head = await headOf(unit.service)
  const signature = { person: 'person:mira', as: 'author', how: 'passphrase', at: unit.now() }
  for (const more of [
    { signed: [signature] },
    { seq: 1 },
    { hash: 'ab'.repeat(32) },
    { judgement: { findings: [] } },
    { recordedAt: unit.now() },
    { roles: ['manager'] },
    { who: 'person:mira' },
  ]) {
    const entry = { ...unit.entry('mira', 'outlet-registered', outlet), ...more }
    const said = await unit.manager.ask('POST', '/api/entries', entry)
    assert.deepEqual([said.status, typeOf(said.body)], [422, '/problems/unusable-input'], JSON.stringify(more))
  }
  const asManager = { ...unit.entry('nora', 'outlet-registered', outlet), by: 'person:mira' }
  assert.equal((await nurse.ask('POST', '/api/entries', asManager)).status, 403)
  const proving = { by: 'passphrase', name: 'Nora', passphrase: passphraseOf('Nora'), roles: ['manager'] }
  assert.equal((await nurse.ask('POST', '/api/sign-in', proving)).status, 422)
  assert.equal(await headOf(unit.service), head)
})

test('given fields that would reach the nature of all objects, then they are refused, and no object has them', async () => {
  await using unit = await SignedUnit.open(sqliteService)
  const head = await headOf(unit.service)
  const headers = { 'content-type': 'application/json' }
  for (const body of [
    '{"__proto__": {"polluted": true}}',
    '{"constructor": {"prototype": {"polluted": true}}}',
    '{"topic": "release", "given": {"__proto__": {"polluted": true}}}',
    '[{"id": {"__proto__": {"polluted": true}}}]',
  ])
    for (const path of ['/api/entries', '/api/decide', '/api/workings/a0', '/api/sign-in', '/api/plan/2026-12-01']) {
      const { status } = await unit.manager.raw({ method: 'POST', path, headers, body })
      assert.ok(status === 400 || status === 422 || status === 200, `${path} ${status}`)
    }
  assert.equal(await headOf(unit.service), head)
  assert.equal((Object.prototype as { polluted?: unknown }).polluted, undefined)
})

test('given addresses that lead out of the folder of the screens, then nothing outside is given', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-attack-'))
  const screens = join(folder, 'dist')
  mkdirSync(join(screens, 'assets'), { recursive: true })
  writeFileSync(join(folder, 'secret.txt'), 'the secret beside it')
  writeFileSync(join(folder, 'dist-secret.txt'), 'the secret beside it')
  writeFileSync(join(screens, 'index.html'), '<!doctype html><title>the page</title>')
  await using service = await runService({ screens })
  for (const path of [
    '/../secret.txt',
    '/%2e%2e/secret.txt',
    '/..%2fsecret.txt',
    '/..%5csecret.txt',
    '/assets/../../secret.txt',
    '/assets/..%2f..%2fsecret.txt',
    '/%2e%2e%2fdist-secret.txt',
    '/assets%2f%2e%2e%2f%2e%2e%2fsecret.txt%00.html',
    '//secret.txt',
    '/.git/config',
    '/api/attachments/..%2f..%2fsecret.txt',
    '/api/known/..%2fsecret.txt',
  ]) {
    const socket = connect(Number(new URL(service.url).port), '127.0.0.1')
    await once(socket, 'connect')
    socket.write(`GET ${path} HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n`)
    let text = ''
    for await (const chunk of socket) text += String(chunk)
    assert.match(text, /^HTTP\/1\.1 (?:200|400|404|422) /, path)
    assert.doesNotMatch(text, /the secret beside it|\[core\]/, path)
  }
  rmSync(folder, { recursive: true, force: true })
})

test('given a compressed body, small or one that would grow a thousandfold, then it is refused before it is opened', async () => {
  await using service = await runService()
  const bomb = gzipSync(Buffer.alloc(64 * 1024 * 1024))
  for (const [path, type, coding] of [
    ['/api/cycle-logs/read', 'application/json', 'gzip'],
    ['/api/entries', 'application/json', 'br'],
    ['/api/attachments', 'text/csv', 'gzip'],
    ['/api/attachments', 'text/csv', 'identity, gzip'],
  ] as const) {
    const method = path === '/api/attachments' ? 'PUT' : 'POST'
    const headers = { 'content-type': type, 'content-encoding': coding }
    const response = await fetch(`${service.url}${path}`, { method, headers, body: new Uint8Array(bomb) })
    assert.deepEqual([response.status, typeOf(await response.json())], [415, '/problems/compressed-body'])
    assert.equal(response.headers.get('accept-encoding'), 'identity')
  }
})

test('given messages whose bounds are not clear, then none of it is taken for another request', async () => {
  await using service = await runService()
  await openUnit(service)
  const head = await headOf(service)
  const hidden = 'POST /api/seals HTTP/1.1\r\nHost: localhost\r\nContent-Length: 0\r\n\r\n'
  const start = 'POST /api/decide HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n'
  for (const lines of [
    `Content-Length: 2\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n${hidden}`,
    `Content-Length: 2\r\nContent-Length: 40\r\n\r\n{}${hidden}`,
    `Transfer-Encoding: chunked, identity\r\n\r\n0\r\n\r\n${hidden}`,
    `Transfer-Encoding : chunked\r\n\r\n0\r\n\r\n${hidden}`,
    `Content-Length: +2\r\n\r\n{}${hidden}`,
  ])
    assert.deepEqual(await sendRaw(service, start + lines), [400], lines.split('\r\n\r\n')[0])
  assert.equal(await headOf(service), head)
  assert.deepEqual(((await service.ask('GET', '/api/seals')).body as { seals: unknown[] }).seals, [])
})

test('given methods that would echo or tunnel, then they are refused', async () => {
  await using service = await runService()
  for (const method of ['TRACE', 'CONNECT', 'OPTIONS', 'DELETE', 'PATCH', 'PROPFIND']) {
    const [status] = await sendRaw(service, `${method} /api/health HTTP/1.1\r\nHost: localhost\r\nX-Secret: s\r\n\r\n`)
    // A tunnel is not answered at all.
    assert.ok(status === undefined || status >= 400, `${method} ${status}`)
  }
})

test('given a kept file that is a page with a script, then a browser saves it and runs nothing', async () => {
  await using service = await runService()
  await openUnit(service)
  const drawing = '<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"/>'
  const asPicture = { method: 'PUT', headers: { 'content-type': 'image/svg+xml' }, body: drawing }
  assert.equal(
    (await fetch(`${service.url}/api/attachments`, asPicture)).status,
    422,
    'as a picture it is not kept at all',
  )
  for (const [type, text] of [
    ['text/html', '<script>alert(1)</script>'],
    ['application/xml', drawing],
  ] as const) {
    const headers = { 'content-type': type }
    const kept = await fetch(`${service.url}/api/attachments`, { method: 'PUT', headers, body: text })
    const { digest } = (await kept.json()) as { digest: string }
    const got = await fetch(`${service.url}/api/attachments/${digest}`)
    assert.match(got.headers.get('content-disposition') ?? '', /^attachment; filename="[0-9a-f]{12}"$/)
    assert.equal(got.headers.get('x-content-type-options'), 'nosniff')
    const policy = got.headers.get('content-security-policy') ?? ''
    assert.match(policy, /script-src 'self'(?:;|$)/)
    assert.doesNotMatch(policy, /unsafe-/)
    assert.equal(await got.text(), text)
  }
})

test('given parameters that come twice, then no one of them is chosen', async () => {
  await using service = await runService()
  await openUnit(service)
  for (const path of ['/api/entries?limit=1&limit=1000', '/api/known?kind=person&kind=case', '/api/find?q=a&q=b']) {
    const { status } = await service.ask('GET', path)
    assert.equal(status, 422, path)
  }
})

test('given a list of a year before any computer, then it is refused and not worked out', async () => {
  await using service = await runService()
  const { status, body } = await service.ask('GET', '/api/plan/0076-11-30?seconds=4')
  assert.equal(status, 422)
  assert.match((body as ApiProblem).detail, /day: wanted a day from 1970-01-01 to 2199-12-31/)
})
