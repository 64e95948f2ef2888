import assert from 'node:assert/strict'
import { test } from 'node:test'
import { entryKinds } from './kinds.ts'
import { notWithoutNetwork, othersMustBeTold } from './without-network.ts'

const natureOf = new Map<string, 'fact' | 'decision'>(entryKinds.map(({ kind, nature }) => [kind, nature]))

test('without the network no decision is offered: a new one has to be put on the list, with its reason', () => {
  const decisions = entryKinds.filter(({ nature }) => nature === 'decision').map(({ kind }) => kind)
  for (const kind of decisions) assert.ok((notWithoutNetwork[kind]?.length ?? 0) > 30, `${kind} has a reason`)
})

test('without the network facts are kept, but for two that cannot wait', () => {
  const facts = Object.keys(notWithoutNetwork).filter((kind) => natureOf.get(kind) === 'fact')
  assert.deepEqual(facts, ['unit-opened', 'person-left'])
})

test('what others must be told of is a fact, and kept', () => {
  for (const kind of othersMustBeTold) {
    assert.equal(natureOf.get(kind), 'fact', kind)
    assert.equal(notWithoutNetwork[kind], undefined, kind)
  }
})
