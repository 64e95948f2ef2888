import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { EntryId } from './entry.ts'
import { effectiveEntries } from './fold.ts'
import { at } from './rule-harness.ts'

const id = (number: number): EntryId => `019d0000-0000-7000-8000-00000000000${number}` as EntryId
const said = (number: number, corrects?: number, time = '10:00', kind = 'chemical-read', seq = number) => ({
  id: id(number),
  seq,
  kind,
  happenedAt: at(time),
  ...(corrects === undefined ? {} : { corrects: id(corrects) }),
})
const numbers = (entries: ReturnType<typeof said>[]): number[] =>
  effectiveEntries(entries).map((entry) => Number(entry.id.at(-1)))

test('effectiveEntries: order of time, then of id, whatever the order of arrival', () => {
  assert.deepEqual(numbers([said(3), said(1), said(2, undefined, '09:00')]), [2, 1, 3])
})

test('effectiveEntries: of several corrections the one made last stands, also in a chain', () => {
  assert.deepEqual(numbers([said(1), said(2, 1), said(3, 1)]), [3])
  assert.deepEqual(numbers([said(3, 1), said(2, 1), said(1)]), [3])
  assert.deepEqual(numbers([said(1), said(2, 1), said(3, 2), said(4)]), [3, 4])
})

test('effectiveEntries: a correction with the id of a fast clock does not beat one that was kept after it', () => {
  const fast = said(9, 1, '10:00', 'chemical-read', 2)
  const right = said(5, 1, '10:00', 'chemical-read', 3)
  assert.deepEqual(numbers([said(1), fast, right]), [5])
  assert.deepEqual(numbers([right, fast, said(1)]), [5])
  // A correction of a correction comes after it in the chain, whatever the clock of its device says.
  assert.deepEqual(numbers([said(1), fast, { ...said(4, 9), seq: 3 }]), [4])
})

test('effectiveEntries: what is withdrawn is gone, until it is corrected after that', () => {
  assert.deepEqual(numbers([said(1), said(2, 1, '10:00', 'entry-withdrawn'), said(5)]), [5])
  assert.deepEqual(numbers([said(1), said(2, 1, '10:00', 'entry-withdrawn'), said(3, 1)]), [3])
})

test('effectiveEntries: a correction whose original is not here stands for it', () => {
  assert.deepEqual(numbers([said(3, 1), said(2, 1)]), [3])
})
