import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { ApiProblem } from '#service/api-types.ts'
import { runService } from '../support/running-service.ts'

/* What is said to be a picture is one, by its first bytes (OWASP ASVS 5.0, 5.2.2; from memory). */

const onePixel = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
  'base64',
)

test('given a file that says it is a picture, then it is kept only when it is one, under the type that it is', async () => {
  await using service = await runService({})
  const put = async (type: string, body: string | Buffer) => {
    const answer = await fetch(`${service.url}/api/attachments`, {
      method: 'PUT',
      headers: { 'content-type': type },
      body: typeof body === 'string' ? body : new Uint8Array(body),
    })
    return { status: answer.status, said: (await answer.json()) as ApiProblem & { digest?: string } }
  }
  const page = await put('image/png', '<script>alert(1)</script>')
  assert.deepEqual(page.said.problems, [
    {
      field: 'body',
      wanted: 'a picture: PNG, JPEG, GIF, WebP, HEIC or AVIF',
      current: 'other first bytes: 3c7363726970743e',
    },
  ])
  const drawing = await put('image/svg+xml', '<svg xmlns="http://www.w3.org/2000/svg"/>')
  assert.deepEqual([page.status, drawing.status], [422, 422])
  const named = await put('image/x-png', onePixel)
  assert.equal(named.status, 200)
  const kept = await fetch(`${service.url}/api/attachments/${named.said.digest}`)
  assert.equal(kept.headers.get('content-type'), 'image/png')
  assert.deepEqual(Buffer.from(await kept.arrayBuffer()), onePixel)
})
