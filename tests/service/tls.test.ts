import assert from 'node:assert/strict'
import { once } from 'node:events'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import type { IncomingHttpHeaders, IncomingMessage } from 'node:http'
import { request as askPlain } from 'node:http'
import { request as askEncrypted } from 'node:https'
import { connect } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, test } from 'node:test'
import { connect as connectTls } from 'node:tls'
import type { ApiProblem } from '#service/api-types.ts'
import { passphraseOf } from '../support/signed-unit.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { selfSigned } from '../support/self-signed.ts'

const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-tls-'))
after(() => rmSync(folder, { recursive: true, force: true }))
const { cert, key } = selfSigned()
const file = (name: string, text: string): string => {
  const path = join(folder, name)
  writeFileSync(path, text)
  return path
}
const pair = {
  NILGROWTH_TLS_CERT_FILE: file('cert.pem', cert),
  NILGROWTH_TLS_KEY_FILE: file('key.pem', key),
}

interface Got {
  readonly status: number
  readonly headers: IncomingHttpHeaders
  readonly body: unknown
}

interface Sent {
  readonly method?: string
  readonly path: string
  readonly headers?: Readonly<Record<string, string>>
  readonly body?: unknown
}

/** Asks with exactly these headers; over TLS it takes no other certificate than ours. */
async function ask(service: RunningService, { method = 'GET', path, headers = {}, body }: Sent): Promise<Got> {
  const url = `${service.url}${path}`
  const json = body === undefined ? {} : { 'content-type': 'application/json' }
  const options = { method, headers: { ...json, ...headers } }
  const sent = url.startsWith('https:') ? askEncrypted(url, { ...options, ca: cert }) : askPlain(url, options)
  sent.end(body === undefined ? undefined : JSON.stringify(body))
  const [response] = (await once(sent, 'response')) as [IncomingMessage]
  const text = (await response.setEncoding('utf8').toArray()).join('')
  const isJson = response.headers['content-type']?.includes('json') === true
  return { status: response.statusCode ?? 0, headers: response.headers, body: isJson ? JSON.parse(text) : text }
}

/** Sets a unit up and signs its manager in; gives the cookie as the browser was told to keep it. */
async function signInCookie(service: RunningService, headers: Readonly<Record<string, string>>): Promise<string> {
  const printed = service.log.find((line) => line.includes('one-time code')) ?? ''
  const choice = {
    choice: 'empty',
    name: 'Invented',
    timeZone: 'UTC',
    manager: 'Mira',
    code: printed.split(' ').at(-1),
  }
  const passphrase = passphraseOf('Mira')
  const opened = await ask(service, { method: 'POST', path: '/api/unit', headers, body: { ...choice, passphrase } })
  assert.equal(opened.status, 202, JSON.stringify(opened.body))
  const proof = { by: 'passphrase', name: 'Mira', passphrase }
  const signed = await ask(service, { method: 'POST', path: '/api/sign-in', headers, body: proof })
  assert.equal(signed.status, 200, JSON.stringify(signed.body))
  return signed.headers['set-cookie']?.[0] ?? ''
}

const personWith = async (service: RunningService, cookie: string, headers: Readonly<Record<string, string>> = {}) => {
  const { body } = await ask(service, { path: '/api/me', headers: { ...headers, cookie: cookie.split(';')[0] ?? '' } })
  return (body as { person: { id: string } | null }).person?.id
}

test('with a certificate of its own it is reached by TLS, says so for a year, and gives its cookies to TLS alone', async () => {
  await using service = await runService({ environment: { ...pair, NILGROWTH_SIGN_IN: 'required' } })
  assert.match(service.url, /^https:\/\/localhost:\d+$/)
  const page = await ask(service, { path: '/' })
  assert.equal(page.status, 200)
  assert.equal(page.headers['strict-transport-security'], 'max-age=31536000; includeSubDomains')
  const cookie = await signInCookie(service, {})
  assert.match(cookie, /^__Host-nilgrowth_session=[\w-]{43}; Path=\/; HttpOnly; Secure; SameSite=Strict$/)
  assert.equal(await personWith(service, cookie), 'person:mira')
  // A cookie that another name of the domain could have set is not looked at.
  assert.equal(await personWith(service, cookie.replace('__Host-', '')), undefined)
})

test('by TLS neither an old version of it nor words in the clear are answered, and a page in the clear is another site', async () => {
  await using service = await runService({ environment: pair })
  const port = Number(new URL(service.url).port)
  const old = connectTls({ port, host: 'localhost', ca: cert, maxVersion: 'TLSv1.1', minVersion: 'TLSv1' })
  await assert.rejects(once(old, 'secureConnect'))
  const clear = connect(port, 'localhost')
  clear.write('GET /api/health HTTP/1.1\r\nHost: localhost\r\n\r\n')
  clear.on('error', () => undefined)
  await once(clear, 'close')
  assert.equal(clear.bytesRead === 0 || clear.readableLength === 0, true)
  const origin = `http://localhost:${port}`
  const foreign = await ask(service, { path: '/api/health', headers: { origin } })
  assert.deepEqual([foreign.status, (foreign.body as ApiProblem).type], [403, '/problems/foreign-page'])
  const own = await ask(service, { path: '/api/health', headers: { origin: origin.replace('http:', 'https:') } })
  assert.equal(own.status, 200)
})

const unusable: readonly (readonly [string, Record<string, string>, RegExp])[] = [
  [
    'a certificate that is not there',
    { ...pair, NILGROWTH_TLS_CERT_FILE: join(folder, 'none.pem') },
    /^NILGROWTH_TLS_CERT_FILE: wanted a file that can be read, current value is ".*none\.pem" \(ENOENT\)$/,
  ],
  [
    'the key of another certificate',
    { ...pair, NILGROWTH_TLS_KEY_FILE: file('other.pem', selfSigned().key) },
    /^NILGROWTH_TLS_CERT_FILE, NILGROWTH_TLS_KEY_FILE: wanted a certificate in PEM, .* and the key of the first, current value is .*mismatch/i,
  ],
  [
    'no certificate at all',
    { ...pair, NILGROWTH_TLS_CERT_FILE: file('text.pem', 'hello') },
    /^NILGROWTH_TLS_CERT_FILE, NILGROWTH_TLS_KEY_FILE: wanted a certificate in PEM/,
  ],
]
for (const [name, environment, says] of unusable)
  test(`${name} is one clear line at the start, and no word of the key`, async () => {
    await assert.rejects(runService({ environment }), (error: Error) => {
      assert.match(error.message, says)
      assert.doesNotMatch(error.message, /PRIVATE KEY/)
      return true
    })
  })

const byProxy = { 'x-forwarded-proto': 'https', 'x-forwarded-for': '198.51.100.7', host: 'unit.example' }

test('behind a proxy that is trusted, its word on TLS counts, and its names are ours', async () => {
  await using service = await runService({
    environment: { NILGROWTH_TRUSTED_PROXY: '127.0.0.1, ::1', NILGROWTH_SIGN_IN: 'required' },
  })
  const page = await ask(service, { path: '/api/health', headers: { ...byProxy, origin: 'https://unit.example' } })
  assert.equal(page.status, 200)
  assert.match(page.headers['strict-transport-security'] ?? '', /^max-age=31536000/)
  const cookie = await signInCookie(service, byProxy)
  assert.match(cookie, /^__Host-nilgrowth_session=.*; Secure; SameSite=Strict$/)
  assert.equal(await personWith(service, cookie, byProxy), 'person:mira')
  const clear = await ask(service, { path: '/api/health', headers: { host: 'unit.example' } })
  assert.equal(clear.headers['strict-transport-security'], undefined)
})

test('from anywhere else a word on TLS is not believed: no cookie is called safe, and nobody comes from where they say', async () => {
  await using service = await runService({
    environment: { NILGROWTH_TRUSTED_PROXY: '192.0.2.1', NILGROWTH_SIGN_IN: 'required', NILGROWTH_RATE_TRIES: '4' },
  })
  const page = await ask(service, { path: '/api/health', headers: byProxy })
  assert.equal(page.headers['strict-transport-security'], undefined)
  const guess = { by: 'passphrase', name: 'Mira', passphrase: 'a guess at it' }
  const tries: number[] = []
  for (const last of [1, 2, 3, 4]) {
    const headers = { ...byProxy, 'x-forwarded-for': `198.51.100.${last}` }
    tries.push((await ask(service, { method: 'POST', path: '/api/sign-in', headers, body: guess })).status)
  }
  assert.deepEqual(tries, [401, 401, 429, 429], 'one address guesses, whatever it says')
})
