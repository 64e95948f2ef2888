import assert from 'node:assert/strict'
import { test } from 'node:test'
import { cellNumber, isBlankLike, isValueLike, usesDecimalComma } from './cell.ts'

test('cellNumber reads a number in the decimal sign of the file and nothing else', () => {
  const rows: [string, boolean, number][] = [
    ['134.5', false, 134.5],
    [' -0.3 ', false, -0.3],
    ['1e2', false, 100],
    ['.5', false, 0.5],
    ['134,5', true, 134.5],
    ['1013', true, 1013],
    ['134,5', false, Number.NaN],
    ['1.013', true, Number.NaN],
    ['1.013,5', true, Number.NaN],
    ['0x10', false, Number.NaN],
    ['Infinity', false, Number.NaN],
    ['', false, Number.NaN],
    ['NaN', false, Number.NaN],
    ['134 °C', false, Number.NaN],
  ]
  for (const [cell, comma, expected] of rows)
    assert.ok(Object.is(cellNumber(cell, comma), expected), `${cell} ${comma}`)
})

test('isBlankLike knows what loggers write for no reading', () => {
  for (const cell of ['', ' ', '---', 'NaN', 'n/a', 'ERR', '####', 'open']) assert.ok(isBlankLike(cell), cell)
  for (const cell of ['0', '12', 'door']) assert.ok(!isBlankLike(cell), cell)
})

test('isValueLike takes numbers, clock times and dates', () => {
  for (const cell of ['1,5', '1.5', '12:30', '2026-03-04T10:00:00', '04/03/2026', '04.03.2026 10:00'])
    assert.ok(isValueLike(cell), cell)
  for (const cell of ['ref', 'kPa', '12 kPa', '']) assert.ok(!isValueLike(cell), cell)
})

test('usesDecimalComma goes by the majority of the cells', () => {
  assert.equal(usesDecimalComma([['12,5', '3,04', '7.1']]), true)
  assert.equal(usesDecimalComma([['12.5', '3.04', '7,1']]), false)
  assert.equal(usesDecimalComma([['12', '3']]), false)
})
