import assert from 'node:assert/strict'
import { test } from 'node:test'
import { EntryId } from '#road/entry.ts'
import { entryIdsOf } from './entry-ids.ts'

test('entryIdsOf makes UUIDs of version 7 that carry their time and keep their order', () => {
  const idOf = entryIdsOf(7)
  const made = [1_700_000_000_000, 1_700_000_000_000, 1_700_000_000_001, 1_700_000_000_000].map(idOf)
  for (const id of made) assert.equal(EntryId.safeParse(id).success, true, id)
  assert.deepEqual(made.toSorted(), made)
  assert.equal(Number.parseInt(made[0]?.replaceAll('-', '').slice(0, 12) ?? '', 16), 1_700_000_000_000)
})

test('entryIdsOf is the same for the same seed and another for another', () => {
  assert.equal(entryIdsOf(1)(5), entryIdsOf(1)(5))
  assert.notEqual(entryIdsOf(1)(5), entryIdsOf(2)(5))
})
