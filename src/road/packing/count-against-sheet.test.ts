import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { SubjectId } from '../subject.ts'
import { countAgainstSheet, type CountSheet } from './count-against-sheet.ts'

type DeviceId = SubjectId<'device'>

/* Each row: the sheet as lines of device, count and substitutes; what was counted; what fills each line. */
const rows: readonly (readonly [string, CountSheet, Record<DeviceId, number>, readonly number[]])[] = [
  ['its own', [{ device: 'device:a', count: 2 }], { 'device:a': 2 }, [2]],
  [
    'a substitute fills what is missing',
    [{ device: 'device:a', count: 2, substitutes: ['device:b'] }],
    { 'device:a': 1, 'device:b': 1 },
    [2],
  ],
  [
    'a piece that its own line needs fills no other',
    [
      { device: 'device:a', count: 1, substitutes: ['device:b'] },
      { device: 'device:b', count: 1 },
    ],
    { 'device:a': 0, 'device:b': 1 },
    [0, 1],
  ],
  [
    'one piece is not a substitute twice',
    [
      { device: 'device:a', count: 1, substitutes: ['device:x'] },
      { device: 'device:b', count: 1, substitutes: ['device:x'] },
    ],
    { 'device:x': 1 },
    [1, 0],
  ],
  [
    'the line with fewer substitutes chooses first',
    [
      { device: 'device:a', count: 1, substitutes: ['device:x', 'device:y'] },
      { device: 'device:b', count: 1, substitutes: ['device:x'] },
    ],
    { 'device:x': 1, 'device:y': 1 },
    [1, 1],
  ],
  ['too many', [{ device: 'device:a', count: 1 }], { 'device:a': 3 }, [3]],
  [
    'a substitute too many',
    [{ device: 'device:a', count: 1, substitutes: ['device:b'] }],
    { 'device:a': 1, 'device:b': 1 },
    [2],
  ],
]

for (const [name, sheet, counted, expected] of rows) {
  test(`count against the sheet: ${name}`, () => {
    const lines = countAgainstSheet(sheet, new Map(Object.entries(counted) as [DeviceId, number][]))
    assert.deepEqual(
      lines.map(({ here }) => here),
      expected,
    )
  })
}
