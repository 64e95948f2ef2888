import assert from 'node:assert/strict'
import { type ChildProcess, spawn } from 'node:child_process'
import { createHmac } from 'node:crypto'
import { once } from 'node:events'
import { readFileSync } from 'node:fs'
import { createServer, type IncomingHttpHeaders } from 'node:http'
import type { AddressInfo } from 'node:net'
import { after, describe, test } from 'node:test'
import { instant } from '#road/instant.ts'
import { runMain } from '#cli/main.ts'
import type { ApiProblem } from '#service/api-types.ts'
import { isPublicAddress } from '#service/webhooks/public-address.ts'
import { signatureOf } from '#service/webhooks/sign.ts'
import { mostFailures, webhooksOf } from '#service/webhooks/webhooks.ts'
import { postgresService, sqliteService } from '../support/service-engines.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { SignedUnit } from '../support/signed-unit.ts'
import { openUnit, record } from './hand.ts'

/* Other systems are told of entries, on both engines and over real sockets. */

const postgres = await postgresService()
after(() => postgres[Symbol.asyncDispose]())

interface Heard {
  readonly headers: IncomingHttpHeaders
  readonly body: string
}

/** A receiver that keeps what it hears and answers what it is told to. */
async function receiver() {
  const heard: Heard[] = []
  const answer = { status: 200 }
  const server = createServer((request, response) => {
    let body = ''
    request.setEncoding('utf8')
    request.on('data', (text: string) => (body += text))
    request.on('end', () => {
      heard.push({ headers: request.headers, body })
      response.writeHead(answer.status, answer.status === 302 ? { location: 'http://127.0.0.1:1/' } : {}).end()
    })
  })
  server.listen(0, '127.0.0.1')
  await once(server, 'listening')
  const url = `http://127.0.0.1:${(server.address() as AddressInfo).port}/hook`
  return { heard, answer, url, [Symbol.asyncDispose]: async () => void server.close() }
}

const spill = (service: RunningService, place: string) =>
  record(service, 'storage-measured', '10:00', { unit: 'unit:unit', place, temperatureC: 20, humidityPercent: 40 })

for (const engine of [sqliteService, postgres])
  describe(`webhooks on ${engine.name}`, () => {
    test('given one, when entries are recorded, then each is told in order, signed, once it is taken, and dead after so many failures', async () => {
      await using service = await runService({ environment: await engine.newRecord() })
      await openUnit(service)
      await using there = await receiver()
      const clock = { now: Date.UTC(2026, 5, 10, 18) }
      const said: string[] = []
      // A clock of the test's own, and told by hand: nothing is waited for. The service has no part in it: its own go by another site.
      const parts = {
        journal: service.journal,
        reader: service.journal.read('unit' as never),
        site: 'by-hand' as never,
      }
      const hooks = webhooksOf({
        ...parts,
        now: () => instant(clock.now),
        privateAllowed: true,
        say: (line) => said.push(line),
      })
      const made = await hooks.add({ url: there.url, kinds: ['storage-measured'] })
      for (const place of ['a', 'b', 'c']) assert.equal((await spill(service, place)).status, 201)
      await hooks.tell()
      assert.equal(there.heard.length, 3)
      const seqs = there.heard.map(({ body }) => (JSON.parse(body) as { data: { seq: number } }).data.seq)
      assert.deepEqual(
        seqs,
        seqs.toSorted((a, b) => a - b),
      )
      for (const { headers, body } of there.heard) {
        const [id, time] = [String(headers['webhook-id']), String(headers['webhook-timestamp'])]
        const key = Buffer.from(made.secret.replace('whsec_', ''), 'base64')
        const wanted = createHmac('sha256', key).update(`${id}.${time}.${body}`).digest('base64')
        assert.equal(headers['webhook-signature'], `v1,${wanted}`)
        assert.deepEqual(Object.keys(JSON.parse(body) as object), ['type', 'timestamp', 'data'])
        assert.doesNotMatch(body, /humidityPercent|temperatureC/)
      }
      await hooks.tell()
      assert.equal(there.heard.length, 3, 'what was taken is not told again')

      there.answer.status = 500
      for (const place of ['d', 'e']) await spill(service, place)
      await hooks.tell()
      await hooks.tell()
      assert.equal(there.heard.length, 4, 'after a failure it waits, and nothing overtakes')
      const [failed] = await hooks.list()
      assert.deepEqual([failed?.failures, failed?.nextAt, failed?.behind], [1, instant(clock.now + 5000), 2])
      clock.now += 5000
      there.answer.status = 200
      await hooks.tell()
      assert.deepEqual(
        there.heard.slice(3).map(({ headers }) => headers['webhook-id']),
        [
          there.heard[3]?.headers['webhook-id'],
          there.heard[3]?.headers['webhook-id'],
          there.heard[5]?.headers['webhook-id'],
        ],
      )

      there.answer.status = 302
      await spill(service, 'f')
      for (let failure = 0; failure < mostFailures + 2; failure += 1) {
        clock.now += 5 * 3600_000
        // oxlint-disable-next-line no-await-in-loop -- one try after another
        await hooks.tell()
      }
      assert.equal(there.heard.length, 6 + mostFailures, 'no redirect is followed, and it is given up')
      const [dead] = await hooks.list()
      assert.deepEqual([dead?.dead, dead?.recent[0]?.status], [true, 302])
      assert.match(said[0] ?? '', /given up after/)
      there.answer.status = 204
      assert.equal(await hooks.resume(made.id), true)
      await hooks.tell()
      assert.deepEqual([(await hooks.list())[0]?.dead, (await hooks.list())[0]?.behind], [false, 0])
      assert.equal(await hooks.remove(made.id), true)
      await spill(service, 'g')
      await hooks.tell()
      assert.equal(there.heard.length, 7 + mostFailures)
    })

    test('given a manager, then by the API; the secret is shown once, nobody else may, and no address that is not public', async () => {
      await using unit = await SignedUnit.open(engine)
      const nurse = await unit.person('Nora', ['theatre'])
      for (const url of [
        'http://example.org/',
        'https://127.0.0.1/',
        'https://[::1]/',
        'https://10.1.2.3/',
        'ftp://x',
        'https://a:b@example.org/',
      ]) {
        const refused = await unit.manager.ask('POST', '/api/webhooks', { url, kinds: ['*'] })
        assert.deepEqual([refused.status, (refused.body as ApiProblem).problems?.[0]?.field], [422, 'url'], url)
      }
      const wanted = { url: 'https://localhost/hook', kinds: ['*'] }
      assert.equal((await nurse.ask('POST', '/api/webhooks', wanted)).status, 403)
      assert.equal((await nurse.ask('GET', '/api/webhooks')).status, 403)
      const made = await unit.manager.ask('POST', '/api/webhooks', wanted)
      assert.equal(made.status, 201, JSON.stringify(made.body))
      const { id, secret } = made.body as { id: string; secret: string }
      assert.match(secret, /^whsec_/)
      const listed = await unit.manager.ask('GET', '/api/webhooks')
      assert.doesNotMatch(JSON.stringify(listed.body), /whsec_|secret/)
      // A name that leads to this computer is seen when it is told.
      const tried = await unit.manager.ask('POST', `/api/webhooks/${id}/test`)
      assert.match((tried.body as { says: string }).says, /leads to an address that is not public/)
      assert.equal((await unit.manager.ask('POST', `/api/webhooks/${id}/end`)).status, 200)
      assert.equal((await unit.manager.ask('POST', `/api/webhooks/${id}/end`)).status, 404)
    })
  })

test('the receiver of the how-to takes what is signed, and refuses what is not, or is old', async () => {
  const page = readFileSync(new URL('../../docs/how-to/be-told-by-webhooks.md', import.meta.url), 'utf8')
  const example = /```js\n([\s\S]*?)```/.exec(page)?.[1] ?? assert.fail('there is an example')
  await using service = await runService({ environment: { NILGROWTH_WEBHOOKS_PRIVATE: 'allowed' } })
  await openUnit(service)
  const probe = createServer().listen(0, '127.0.0.1')
  await once(probe, 'listening')
  const { port } = probe.address() as AddressInfo
  probe.close()
  await once(probe, 'close')
  const url = `http://127.0.0.1:${port}/`
  const made = (await service.ask('POST', '/api/webhooks', { url, kinds: ['storage-measured'] })).body as {
    id: string
    secret: string
  }
  const child: ChildProcess = spawn(process.execPath, ['--input-type=module', '--eval', example], {
    env: { ...process.env, SECRET: made.secret, PORT: String(port) },
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  try {
    const { stdout } = child
    assert.ok(stdout !== null)
    let out = ''
    stdout.on('data', (chunk: Buffer) => (out += chunk.toString()))
    const saw = async (text: string): Promise<void> => {
      // oxlint-disable-next-line no-await-in-loop -- read until it is there
      while (!out.includes(text)) await once(stdout, 'data')
    }
    await saw('listening')
    assert.equal(((await service.ask('POST', `/api/webhooks/${made.id}/test`)).body as { status: number }).status, 204)
    await saw('test')
    // By the clock of the service, without anybody asking for it.
    await spill(service, 'a')
    await saw('storage-measured')
    const now = Math.floor(Date.now() / 1000)
    const send = async (timestamp: number, signature: string): Promise<number> => {
      const headers = { 'webhook-id': 'm', 'webhook-timestamp': String(timestamp), 'webhook-signature': signature }
      return (await fetch(url, { method: 'POST', headers, body: '{"type":"forged"}' })).status
    }
    const signed = (timestamp: number) => signatureOf(made.secret, { id: 'm', timestamp, body: '{"type":"forged"}' })
    assert.deepEqual(
      [
        await send(now, 'v1,AAAA'),
        await send(now, signed(now - 1)),
        await send(now - 3600, signed(now - 3600)),
        await send(now, signed(now)),
      ],
      [401, 401, 401, 204],
    )
  } finally {
    child.kill()
  }
})

for (const [address, isPublic] of [
  ['93.184.215.14', true],
  ['2606:2800:21f:cb07:6820:80da:af6b:8b2c', true],
  ['127.0.0.1', false],
  ['10.0.0.1', false],
  ['172.31.255.255', false],
  ['192.168.1.1', false],
  ['169.254.169.254', false],
  ['100.64.0.1', false],
  ['0.0.0.0', false],
  ['255.255.255.255', false],
  ['::1', false],
  ['::', false],
  ['::ffff:127.0.0.1', false],
  ['::ffff:7f00:1', false],
  ['64:ff9b::7f00:1', false],
  ['2002:7f00:1::', false],
  ['fc00::1', false],
  ['fe80::1', false],
  ['ff02::1', false],
  ['localhost', false],
] as const)
  test(`isPublicAddress: ${address} ${isPublic ? 'is' : 'is not'}`, () =>
    assert.equal(isPublicAddress(address), isPublic))

test('nilgrowth webhooks: lists, resumes and ends', async () => {
  await using service = await runService()
  await openUnit(service)
  const made = (await service.ask('POST', '/api/webhooks', { url: 'https://example.invalid/', kinds: ['*'] })).body as {
    id: string
  }
  let out = ''
  const stdin = (async function* () {})()
  const io = { stdin, stdout: { write: (t: string) => (out += t) }, stderr: { write: () => undefined } }
  const run = (...args: readonly string[]) => runMain(['webhooks', ...args, '--data', service.file], io)
  assert.equal(await run('list'), 0)
  assert.match(out, new RegExp(made.id))
  assert.doesNotMatch(out, /whsec_/)
  assert.deepEqual(
    [await run('resume', made.id), await run('end', made.id), await run('end', made.id), await run('other')],
    [0, 0, 2, 2],
  )
})
