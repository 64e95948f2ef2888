import assert from 'node:assert/strict'
import { test } from 'node:test'
import { readLogText } from './log-text.ts'
import { readTimes, timeFormatOf } from './log-time.ts'
import { isUnusable } from './unusable.ts'

function tableOf(cells: readonly string[], header = 'time', more = '') {
  const table = readLogText([`${header};x;y`, ...cells.map((cell) => `${cell};1.5;2.5${more}`)].join('\n'), header)
  if (isUnusable(table)) throw new Error(table.problem.current)
  return table
}
function times(cells: readonly string[], format: 'seconds' | 'clock' | 'iso'): number[] {
  return [...readTimes(tableOf(cells), 0, format).seconds]
}

test('readTimes reads elapsed seconds as logged', () => {
  assert.deepEqual(times(['0', '1.5', '3'], 'seconds'), [0, 1.5, 3])
  assert.deepEqual(times(['1000', 'x', '1001'], 'seconds'), [1000, Number.NaN, 1001])
})

test('readTimes reads clock times with and without seconds, fractions, halves of the day and dates', () => {
  assert.deepEqual(times(['10:00', '10:01', '10:03'], 'clock'), [0, 60, 180])
  assert.deepEqual(times(['10:00:00', '10:00:01.5', '10:00:03'], 'clock'), [0, 1.5, 3])
  assert.deepEqual(times(['11:59:59 AM', '12:00:00 PM', '12:00:01 PM'], 'clock'), [0, 1, 2])
  assert.deepEqual(times(['31/01/2026 23:59:59', '01/02/2026 00:00:00'], 'clock'), [0, 1])
  assert.deepEqual(times(['01/31/2026 23:59:59', '02/01/2026 00:00:00'], 'clock'), [0, 1])
  assert.deepEqual(times(['03.02.2026 10:00:00', '03.02.2026 10:00:01'], 'clock'), [0, 1])
  assert.deepEqual(times(['59:58', '60:00', '60:02'], 'clock'), [0, 2, 4])
})

test('readTimes runs on across midnight, also when rows are out of order there', () => {
  assert.deepEqual(times(['23:59:58', '23:59:59', '00:00:00', '00:00:01'], 'clock'), [0, 1, 2, 3])
  assert.deepEqual(times(['23:59:58', '00:00:00', '23:59:59', '00:00:01'], 'clock'), [0, 2, 1, 3])
  const found = readTimes(tableOf(['23:59:59', '00:00:00']), 0, 'clock').findings
  assert.deepEqual(
    found.map(({ rule }) => rule),
    ['across-midnight'],
  )
})

test('readTimes uses a date column beside a clock column', () => {
  const table = readLogText(
    ['Date;time;x', '03/02/2026;10:00:00;1', '04/02/2026;11:00:00;2', '05/02/2026;09:00:00;2'].join('\n'),
    'time',
  )
  if (isUnusable(table)) throw new Error(table.problem.current)
  assert.deepEqual([...readTimes(table, 1, 'clock').seconds], [0, 90_000, 169_200])
})

test('readTimes reads ISO times with zones and fractions', () => {
  assert.deepEqual(times(['2026-03-04T05:06:07Z', '2026-03-04T06:06:08.25+01:00'], 'iso'), [0, 1.25])
  assert.deepEqual(times(['2026-12-31 23:59:59', '2027-01-01 00:00:00'], 'iso'), [0, 1])
})

test('readTimes sets the pieces of a counter that starts again one after the other', () => {
  const cells = Array.from({ length: 1002 }, (_, index) => String(index % 501))
  const { seconds, findings } = readTimes(tableOf(cells), 0, 'seconds')
  assert.equal(seconds[501], 500 + 3600)
  assert.deepEqual(
    findings.map(({ rule }) => rule),
    ['time-restarts'],
  )
})

test('timeFormatOf tells the formats apart', () => {
  assert.equal(timeFormatOf(tableOf(['0', '1']), 0), 'seconds')
  assert.equal(timeFormatOf(tableOf(['10:00:00', '10:00:01']), 0), 'clock')
  assert.equal(timeFormatOf(tableOf(['03/02/2026 10:00:00', '03/02/2026 10:00:01']), 0), 'clock')
  assert.equal(timeFormatOf(tableOf(['2026-03-04T05:06:07', '2026-03-04T05:06:08']), 0), 'iso')
})
