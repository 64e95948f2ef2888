import assert from 'node:assert/strict'
import { test } from 'node:test'
import * as fc from 'fast-check'
import { csvText } from './csv-text.ts'

for (const [value, written] of [
  ['=1+1', "'=1+1"],
  ['+cmd|calc', "'+cmd|calc"],
  ['-2+3', "'-2+3"],
  ['@SUM(A1)', "'@SUM(A1)"],
  ['\t=1', "'\t=1"],
  ['\r=1', '"\'\r=1"'],
  ['\u0000=1', "'\u0000=1"],
  ['\uFF1D1', "'\uFF1D1"],
  ['a "b", c', '"a ""b"", c"'],
  ['plain', 'plain'],
  [-5.5, '-5.5'],
  [null, ''],
] as const)
  test(`csvText: ${JSON.stringify(value)}`, () => assert.equal(csvText([[value]]), written))

test('csvText: whatever the texts are, a reader of RFC 4180 gets each back, and none begins as a formula does', () => {
  fc.assert(
    fc.property(
      fc.array(fc.array(fc.string(), { minLength: 2, maxLength: 4 }), { minLength: 1, maxLength: 5 }),
      (rows) => {
        const read = readCsv(csvText(rows))
        assert.equal(read.length, rows.length)
        for (const [index, row] of rows.entries())
          for (const [place, text] of row.entries()) {
            const got = read[index]?.[place] ?? assert.fail('a cell is missing')
            assert.ok(got === text || got === `'${text}`)
            assert.doesNotMatch(got, /^[=+\-@\t\r]/)
          }
      },
    ),
  )
})

/** RFC 4180, read plainly. */
function readCsv(text: string): string[][] {
  const rows: string[][] = [[]]
  let cell = ''
  let quoted = false
  for (let place = 0; place < text.length; place += 1) {
    const character = text.charAt(place)
    if (quoted) {
      if (character !== '"') cell += character
      else if (text.charAt(place + 1) === '"') {
        cell += '"'
        place += 1
      } else quoted = false
    } else if (character === '"') quoted = true
    else if (character === ',') {
      rows.at(-1)?.push(cell)
      cell = ''
    } else if (character === '\r' && text.charAt(place + 1) === '\n') {
      rows.at(-1)?.push(cell)
      rows.push([])
      cell = ''
      place += 1
    } else cell += character
  }
  rows.at(-1)?.push(cell)
  return rows
}
