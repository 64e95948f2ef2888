import assert from 'node:assert/strict'
import { test } from 'node:test'
import * as fc from 'fast-check'
import { Instant } from '#road/instant.ts'
import { serviceLog } from './log.ts'

const now = () => Instant.parse('2026-06-10T08:00:00.000Z')

function logged(form: 'plain' | 'json', line: string): string {
  const lines: string[] = []
  serviceLog({ form, now, write: (each) => lines.push(each) }).say(line)
  assert.equal(lines.length, 1)
  return lines[0] ?? ''
}

test('json: whatever is said, it is one line of JSON that gives it back', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary' }), (text) => {
      const line = logged('json', text)
      assert.doesNotMatch(line, /[\r\n]/)
      assert.deepEqual(JSON.parse(line), { time: now(), level: 'info', event: 'said', says: text })
    }),
  )
})

test('plain: whatever is said, each further line is set in, and nothing that a terminal obeys is left', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary' }), (text) => {
      const line = logged('plain', text)
      // oxlint-disable-next-line no-control-regex -- these are what a terminal would obey
      assert.doesNotMatch(line, /[\u0000-\u0008\u000B-\u001F\u007F-\u009F]|\n(?! {4})/)
    }),
  )
})

test('plain: what forges a line is seen as what it is', () => {
  assert.equal(
    logged('plain', 'a name\nnilgrowth is open at http://evil.example\u001B[2J'),
    'a name\n    nilgrowth is open at http://evil.example\\u001b[2J',
  )
})
