import assert from 'node:assert/strict'
import { once } from 'node:events'
import { createServer, type ServerResponse } from 'node:http'
import { type AddressInfo, connect } from 'node:net'
import { test } from 'node:test'
import { goneSignal } from './gone-signal.ts'

/** Asks a server something and leaves when `until` says so; gives the answer that nobody waits for. */
async function leave(during: (answer: ServerResponse) => void): Promise<ServerResponse> {
  const asked = Promise.withResolvers<ServerResponse>()
  const server = createServer((_, answer) => asked.resolve(answer)).listen(0)
  await once(server, 'listening')
  const socket = connect((server.address() as AddressInfo).port)
  socket.write('GET / HTTP/1.1\r\nHost: here\r\n\r\n')
  const answer = await asked.promise
  during(answer)
  socket.destroy()
  await once(answer, 'close')
  server.close()
  return answer
}

test('goneSignal: who leaves while the answer is worked out ends the work', async () => {
  let signal: AbortSignal | undefined
  await leave((answer) => {
    signal = goneSignal(answer)
    assert.equal(signal.aborted, false)
  })
  assert.equal(signal?.aborted, true)
})

test('goneSignal: of who left before the question was looked at, it is known at once', async () => {
  const answer = await leave(() => {})
  assert.equal(goneSignal(answer).aborted, true)
})
