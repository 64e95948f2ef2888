import assert from 'node:assert/strict'
import { test } from 'node:test'
import { endedByQuiet, idle, type Splitting, withLine } from './split-cycles.ts'

const marks = { startMark: 'CYCLE START', endMark: 'cycle end', silenceSeconds: 60 }

/** What becomes of lines that are printed a second apart, or after the pause that stands before them. */
function split(lines: readonly (string | number)[], settings: Parameters<typeof withLine>[3] = marks): string[][] {
  const pieces: string[][] = []
  let piece: string[] = []
  let state: Splitting = idle
  let at = 0
  const end = () => {
    pieces.push(piece)
    piece = []
  }
  for (const line of lines) {
    if (typeof line === 'number') {
      at += line * 1000
      if (endedByQuiet(state, at, settings) !== null) {
        end()
        state = idle
      }
      continue
    }
    at += 1000
    const { after, endsBefore, keeps } = withLine(state, line, at, settings)
    if (endsBefore !== null) end()
    state = after
    if (keeps) piece.push(line)
  }
  return piece.length === 0 ? pieces : [...pieces, piece]
}

test('withLine: a cycle goes from its start mark to its end mark, with who signed it just after', () => {
  const lines = ['** Cycle start 7 **', 'a', 'CYCLE END', 'operator 3', 5, '', 'Cycle start 8', 'b', 'cycle end']
  assert.deepEqual(split(lines), [
    ['** Cycle start 7 **', 'a', 'CYCLE END', 'operator 3'],
    ['Cycle start 8', 'b', 'cycle end'],
  ])
})

test('withLine: the next start ends a cycle whose end was never printed', () => {
  assert.deepEqual(split(['cycle start', 'a', 'cycle start', 'b']), [
    ['cycle start', 'a'],
    ['cycle start', 'b'],
  ])
})

test('withLine: the next start just after an end mark is no trailer of the cycle before', () => {
  assert.deepEqual(split(['cycle start', 'cycle end', 'cycle start', 'b']), [
    ['cycle start', 'cycle end'],
    ['cycle start', 'b'],
  ])
})

test('withLine: lines without their start are kept, and silence ends what has no end mark', () => {
  assert.deepEqual(split(['half of a cycle', 'a', 61, 'cycle start', 'b', 58, 'c']), [
    ['half of a cycle', 'a'],
    ['cycle start', 'b', 'c'],
  ])
})

test('withLine: without marks only silence splits, and empty lines between cycles are none', () => {
  const silence = { startMark: null, endMark: null, silenceSeconds: 10 }
  assert.deepEqual(split(['', 'a', '', 'b', 11, '', 'c'], silence), [['a', '', 'b'], ['c']])
})
