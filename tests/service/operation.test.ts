import assert from 'node:assert/strict'
import { once } from 'node:events'
import { connect, type Socket } from 'node:net'
import { test } from 'node:test'
import type { ApiProblem } from '#service/api-types.ts'
import { runService, type RunningService } from '../support/running-service.ts'
import { openUnit } from './hand.ts'

const token = 'not-a-secret-but-long-enough'
const typeOf = (body: unknown): string => (body as ApiProblem).type

interface Metric {
  readonly name: string
  readonly labels: string
  readonly value: number
}

/** Reads the text as OpenMetrics 1.0 lays it down: every sample under its type, and the end said. */
function samplesOf(text: string): readonly Metric[] {
  const lines = text.split('\n')
  assert.deepEqual(lines.slice(-2), ['# EOF', ''])
  const types = new Map<string, string>()
  return lines.slice(0, -2).flatMap((line) => {
    const [, what, family = '', rest = ''] = /^# (TYPE|HELP|UNIT) (\S+) (.+)$/.exec(line) ?? []
    if (what === 'TYPE') types.set(family, rest)
    if (what !== undefined) return []
    const [, name = '', labels = '', value = ''] =
      /^([a-z_]+)(\{(?:[a-z]+="(?:[^"\\\n]|\\.)*",?)+\})? (-?\d+(?:\.\d+)?(?:e[+-]?\d+)?)$/.exec(line) ??
      assert.fail(`no sample: ${line}`)
    const [own] = [...types].filter(([each]) => name.startsWith(each)).sort(([a], [b]) => b.length - a.length)
    assert.ok(own, `${name} has a type`)
    if (own[1] === 'counter') assert.equal(name, `${own[0]}_total`)
    return [{ name, labels, value: Number(value) }]
  })
}

async function metricsOf(service: RunningService, headers: Readonly<Record<string, string>> = {}) {
  const response = await fetch(`${service.url}/api/metrics`, { headers })
  return { status: response.status, type: response.headers.get('content-type') ?? '', text: await response.text() }
}

test('what the service counts is OpenMetrics, by route as written in the list, and names nobody and nothing', async () => {
  await using service = await runService()
  await openUnit(service)
  await service.ask('GET', '/api/known/person:ada')
  await service.ask('GET', '/api/known/person:ada')
  await service.ask('GET', '/wounds/of/somebody')
  await service.ask('GET', '/api/known/person:nobody')
  const { status, type, text } = await metricsOf(service)
  assert.equal(status, 200)
  assert.match(type, /^application\/openmetrics-text; version=1\.0\.0/)
  const samples = samplesOf(text)
  const count = (name: string, labels: string) =>
    samples.find((each) => each.name === name && each.labels === labels)?.value
  const route = 'route="/api/known/:subject"'
  assert.equal(count('nilgrowth_requests_total', `{method="GET",${route},status="200"}`), 2)
  assert.equal(count('nilgrowth_requests_total', `{method="GET",${route},status="404"}`), 1)
  assert.equal(count('nilgrowth_request_seconds_count', `{${route}}`), 3)
  assert.equal(count('nilgrowth_request_seconds_bucket', `{${route},le="+Inf"}`), 3)
  assert.ok((count('nilgrowth_record_entries', '') ?? 0) > 0)
  assert.equal(count('nilgrowth_ready', ''), 1)
  assert.doesNotMatch(text, /ada|Harbour|somebody|nobody/i)
})

test('the counts are for the computer of the service; from elsewhere a token is asked for', async () => {
  await using service = await runService({ environment: { NILGROWTH_METRICS_TOKEN: token } })
  const through = { 'x-forwarded-for': '198.51.100.7' }
  const bearer = (text: string) => ({ authorization: `Bearer ${text}` })
  assert.equal((await metricsOf(service)).status, 200)
  assert.equal((await metricsOf(service, bearer(token))).status, 200)
  assert.equal((await metricsOf(service, { ...through, ...bearer(token) })).status, 200)
  for (const headers of [through, { forwarded: 'for=198.51.100.7' }, bearer('a guess'), bearer(`${token}x`)]) {
    const { status, text } = await metricsOf(service, headers)
    assert.deepEqual([status, typeOf(JSON.parse(text))], [403, '/problems/not-operator'])
  }
  await using closed = await runService()
  assert.equal((await metricsOf(closed, bearer(token))).status, 403, 'without a setting no token opens it')
})

test('as JSON every event is a line with its time; requests by number and route, and no word of who or what', async () => {
  await using service = await runService({ environment: { NILGROWTH_LOG: 'json' } })
  await openUnit(service)
  const answer = await service.ask('GET', '/api/known/person:ada?x=%0A%22forged')
  await service.ask('GET', '/%0Aforged')
  const lines = service.log.map((line) => {
    assert.doesNotMatch(line, /[\r\n]|forged|ada|Harbour/i)
    return JSON.parse(line) as Record<string, unknown>
  })
  const own = lines.find(({ id }) => id === answer.headers.get('x-request-id'))
  assert.deepEqual(
    [own?.['event'], own?.['method'], own?.['route'], own?.['status']],
    ['request', 'GET', '/api/known/:subject', 422],
  )
  for (const { time, level } of lines) assert.match(`${String(time)} ${String(level)}`, /^\d{4}-.*Z (?:info|error)$/)
})

test('a failure of ours has the number of its request, in the answer, in its header and in the log', async () => {
  const broken = await runService({ environment: { NILGROWTH_LOG: 'json' } })
  await broken.journal.close()
  const answer = await broken.ask('GET', '/api/health')
  const { instance } = answer.body as ApiProblem
  assert.equal(answer.headers.get('x-request-id'), instance)
  const failure = broken.log
    .map((line) => JSON.parse(line) as Record<string, unknown>)
    .find(({ event }) => event === 'said')
  assert.equal(failure?.['level'], 'error')
  assert.match(String(failure?.['says']), new RegExp(`^failure ${instance} at GET /api/health: `))
  await broken.close()
})

/** Begins to send an entry and stops in the middle of it. */
async function halfSent(service: RunningService, body: string): Promise<Socket> {
  const socket = connect(Number(new URL(service.url).port), '127.0.0.1')
  await once(socket, 'connect')
  const head = ['POST /api/decide HTTP/1.1', 'Host: localhost', 'Content-Type: application/json']
  socket.write([...head, `Content-Length: ${Buffer.byteLength(body)}`, '', body.slice(0, 10)].join('\r\n'))
  return socket
}

test('told to end, it is not ready at once, goes on answering for as long as was set, then ends streams and finishes what is under way', async () => {
  const service = await runService({ environment: { NILGROWTH_STOP_AFTER: '1' } })
  assert.deepEqual((await service.ask('GET', '/api/ready')).body, { ready: true })
  const stream = await fetch(`${service.url}/api/live`)
  const body = JSON.stringify({ topic: 'no such topic', given: {} })
  const underWay = await halfSent(service, body)
  const closed = service.close()
  const ready = await service.ask('GET', '/api/ready')
  assert.deepEqual([ready.status, typeOf(ready.body)], [503, '/problems/not-ready'])
  assert.equal((await service.ask('GET', '/api/health')).status, 200, 'a balancer that has not heard yet is answered')
  assert.match(await stream.text(), /^event: here$/m)
  // The stream has ended, so nothing new is let in; what had begun comes to its end.
  underWay.write(body.slice(10))
  const [answer] = (await Promise.race([once(underWay, 'data'), once(underWay, 'close')])) as [unknown]
  assert.match(String(answer), /^HTTP\/1\.1 422 /)
  await closed
  underWay.destroy()
  await assert.rejects(fetch(`${service.url}/api/health`))
})

test('what never comes to its end is cut after ten seconds', { timeout: 30_000 }, async () => {
  const service = await runService()
  const stuck = await halfSent(service, 'x'.repeat(100))
  stuck.on('error', () => undefined).resume()
  const began = performance.now()
  await service.close()
  const seconds = (performance.now() - began) / 1000
  assert.ok(seconds >= 9 && seconds < 20, `${seconds} s`)
})
