import assert from 'node:assert/strict'
import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, before, test } from 'node:test'
import { gzipSync } from 'node:zlib'
import { runService, type RunningService } from '../support/running-service.ts'

let service: RunningService

before(async () => {
  const screens = mkdtempSync(join(tmpdir(), 'nilgrowth-screens-'))
  mkdirSync(join(screens, 'assets'))
  writeFileSync(join(screens, 'index.html'), '<!doctype html><title>page</title>')
  writeFileSync(join(screens, 'assets', 'index-abc123.js'), 'export const x = 1\n'.repeat(100))
  writeFileSync(join(screens, 'assets', 'index-abc123.js.gz'), gzipSync('export const x = 1\n'.repeat(100)))
  service = await runService({ screens })
})

after(async () => {
  await service.close()
})

test('any place of the program gets its page, never cached', async () => {
  for (const path of ['/', '/index.html', '/machines/machine:a', '/trace/wound:x1?direction=back']) {
    const answer = await service.ask('GET', path)
    assert.equal(answer.status, 200)
    assert.equal(answer.type, 'text/html; charset=utf-8')
    assert.match(String(answer.body), /page/)
    assert.equal(answer.headers.get('cache-control'), 'no-cache')
  }
})

test('assets are kept for good, come packed, and a missing one is not the page', async () => {
  const response = await fetch(`${service.url}/assets/index-abc123.js`, { headers: { 'accept-encoding': 'gzip' } })
  assert.equal(response.status, 200)
  assert.match(response.headers.get('content-type') ?? '', /javascript/)
  assert.equal(response.headers.get('content-encoding'), 'gzip')
  assert.equal(response.headers.get('cache-control'), 'public, max-age=31536000, immutable')
  assert.match(await response.text(), /^export const x/)
  assert.equal((await service.ask('GET', '/assets/gone-999.js')).status, 404)
})

test('nothing outside the folder is served', async () => {
  for (const path of [
    '/..%2f..%2fpackage.json',
    '/assets/..%2f..%2fpackage.json',
    '/%2e%2e/package.json',
    '/assets/%00',
    '/assets',
  ]) {
    const answer = await service.ask('GET', path)
    assert.doesNotMatch(String(answer.body), /dependencies/)
  }
})

test('every answer carries the headers that keep a browser safe', async () => {
  for (const path of ['/', '/api/health', '/api/none']) {
    const { headers } = await service.ask('GET', path)
    assert.match(headers.get('content-security-policy') ?? '', /default-src 'self'.*frame-ancestors 'none'/)
    assert.equal(headers.get('x-content-type-options'), 'nosniff')
    assert.equal(headers.get('referrer-policy'), 'no-referrer')
  }
  assert.equal((await service.ask('GET', '/api/health')).headers.get('cache-control'), 'no-store')
})

test('without built screens a plain page says what to do', async () => {
  await using bare = await runService()
  const answer = await bare.ask('GET', '/')
  assert.equal(answer.status, 200)
  assert.match(String(answer.body), /npm start/)
})
