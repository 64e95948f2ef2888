import assert from 'node:assert/strict'
import { test } from 'node:test'
import * as fc from 'fast-check'
import { lineBuffer, longestLineBytes } from './printed-lines.ts'

const bytesOf = (text: string) => new TextEncoder().encode(text)
const textsOf = (buffer: ReturnType<typeof lineBuffer>, ...packets: readonly Uint8Array[]) =>
  packets.flatMap((packet) => buffer.take(packet)).map(({ text }) => text)

test('lineBuffer: the lines are the same wherever the packets are cut', () => {
  const stream = bytesOf('elapsed,kPa\r\n0,101.3\r\n5,99 µ\n\rend\f')
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 0, max: stream.length }), { maxLength: 8 }), (cuts) => {
      const places = [0, ...cuts.toSorted((a, b) => a - b), stream.length]
      const packets = places.slice(1).map((end, index) => stream.slice(places[index], end))
      assert.deepEqual(textsOf(lineBuffer(), ...packets), ['elapsed,kPa', '0,101.3', '5,99 µ', '', 'end'])
    }),
  )
})

test('lineBuffer: what moves paper and bold letters of a printer are left out, a tab stays', () => {
  assert.deepEqual(textsOf(lineBuffer(), bytesOf('\u001b@\u001b[1m134.2\u0000\t°C\u0007\u001b[0m\r\n')), ['134.2\t°C'])
})

test('lineBuffer: letters of one byte each are read as printers write them', () => {
  assert.deepEqual(textsOf(lineBuffer(), Uint8Array.from([0x31, 0xb0, 0x43, 0x0a])), ['1°C'])
})

test('lineBuffer: a line without an end is cut at its bound and says so', () => {
  const buffer = lineBuffer()
  for (let packet = 0; packet < 100; packet += 1) assert.deepEqual(buffer.take(bytesOf('x'.repeat(1000))), [])
  const [line] = buffer.take(bytesOf('\n'))
  assert.deepEqual([line?.text.length, line?.cut], [longestLineBytes, true])
  assert.deepEqual(buffer.take(bytesOf('next\n')), [{ text: 'next', cut: false }])
})

test('lineBuffer: whatever bytes come, lines come without control characters and within their bound', () => {
  fc.assert(
    fc.property(fc.array(fc.uint8Array({ maxLength: 300 }), { maxLength: 20 }), (packets) => {
      for (const text of textsOf(lineBuffer(), ...packets)) {
        // oxlint-disable-next-line no-control-regex
        assert.doesNotMatch(text, /[\u0000-\u0008\u000a-\u001f\u007f-\u009f]/)
        assert.ok(text.length <= longestLineBytes)
      }
    }),
  )
})
