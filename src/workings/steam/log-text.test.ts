import assert from 'node:assert/strict'
import { test } from 'node:test'
import { columnsShown, type LogTable, readLogText } from './log-text.ts'
import { isUnusable } from './unusable.ts'

function table(text: string, column?: string): LogTable {
  const read = readLogText(text, column)
  if (isUnusable(read)) throw new Error(JSON.stringify(read.problem))
  return read
}

const rows = (delimiter: string, decimal: string) =>
  Array.from({ length: 6 }, (_, index) =>
    [String(index), `1${index}${decimal}5`, `2${index}${decimal}25`].join(delimiter),
  )

test('readLogText finds delimiter and decimal sign by looking', () => {
  for (const delimiter of [',', ';', '\t'])
    for (const decimal of ['.', ',']) {
      const quoted = delimiter === ',' && decimal === ','
      const body = rows(';', decimal).map((row) =>
        row
          .split(';')
          .map((cell) => (quoted ? `"${cell}"` : cell))
          .join(delimiter),
      )
      const read = table([['t', 'p', 'T'].join(delimiter), ...body].join('\n'))
      assert.equal(read.delimiter, delimiter)
      assert.equal(read.decimalComma, decimal === ',')
      assert.deepEqual(read.header, ['t', 'p', 'T'])
      assert.equal(read.rows[1]?.[1], `11${decimal}5`)
    }
})

test('readLogText survives a byte mark, CRLF, preamble, units row, quotes, blanks and a printed summary', () => {
  const text = [
    '\uFEFF# machine 2',
    'Operator;somebody',
    '',
    '"t";"p; chamber";"T"',
    's;kPa;°C',
    '',
    ...rows(';', '.'),
    '',
    'Summary;ok',
    'END',
  ].join('\r\n')
  const read = table(text)
  assert.deepEqual(read.header, ['t', 'p; chamber', 'T'])
  assert.deepEqual(read.units, ['s', 'kPa', '°C'])
  assert.equal(read.rows.length, 8)
})

test('readLogText takes the header line that names a mapped column', () => {
  const text = ['a;b;c', 'time;p;T', 'note;x;y', ...rows(';', '.')].join('\n')
  assert.deepEqual(table(text, 'TIME').header, ['time', 'p', 'T'])
})

test('readLogText refuses what is no log, saying what was wanted and what came', () => {
  const says = (text: string) => {
    const read = readLogText(text)
    return isUnusable(read) ? `${read.problem.field}: ${read.problem.wanted} / ${read.problem.current}` : 'read'
  }
  assert.match(says(''), /an empty file/)
  assert.match(says(' \n\n'), /an empty file/)
  assert.match(says('PK\u0000\u0003'), /binary/)
  assert.match(says('once upon a time\nthere was a log'), /rows of numbers .*once upon a time/)
  assert.match(says(rows(',', '.').join('\n')), /header line/)
  assert.match(says(['t,p,T', ...rows(',', ',').map((row) => row)].join('\n')), /rows of 3 cells .*rows of 5 cells/)
})

test('columnsShown stays short, whatever the log holds', () => {
  assert.equal(columnsShown({ header: ['t', 'p'] }), '"t", "p"')
  const many = columnsShown({ header: Array.from({ length: 100_000 }, (_, place) => `c${place}`) })
  assert.match(many, /"c23" and 99976 more$/)
  assert.ok(columnsShown({ header: ['x'.repeat(100_000)] }).length < 50)
})
