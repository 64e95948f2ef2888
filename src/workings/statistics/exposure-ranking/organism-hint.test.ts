import assert from 'node:assert/strict'
import { test } from 'node:test'
import { organismHint } from './organism-hint.ts'

const one = (id: string, onset: string, organism: string) => ({
  id,
  date: '2026-03-01',
  infected: true,
  onset,
  organism,
  exposures: [
    { type: 'bath', id: 'B1', flags: [] },
    { type: 'load', id: 'L1', flags: [] },
  ],
})

/* Mycobacteria of port sites came after 36 days here; ordinary wounds within a week. */
const late = ['a', 'b', 'c'].map((id) => one(id, '2026-04-06', 'Mycobacterium chelonae'))
const ordinary = ['d', 'e', 'f', 'g', 'h'].map((id) => one(id, '2026-03-06', 'Staphylococcus aureus'))

test('late acid-fast infections are told as late however many ordinary ones stand beside them', () => {
  const hint = organismHint([...late, ...ordinary])
  assert.deepEqual([hint.kind, hint.medianDaysToOnset, hint.types], ['lateAcidFast', 36, ['bath']])
  assert.match(hint.says, /^3 of 8 infected .*water and baths first.*90 days or more/)
})

test('ordinary infections point at no kind of exposure', () => {
  assert.deepEqual([organismHint(ordinary).kind, organismHint(ordinary).medianDaysToOnset], ['none', 5])
})
