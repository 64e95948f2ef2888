import assert from 'node:assert/strict'
import { test } from 'node:test'
import { lookOnce } from './look-once.ts'
import type { Look } from './look.ts'
import { knownAs } from './rule-harness.ts'
import type { SubjectId } from './subject.ts'

test('what is known of a subject is asked once, whoever asks and whether it is there or not', async () => {
  const asked: SubjectId[][] = []
  const look = lookOnce({
    known: (ids: readonly SubjectId[]) => {
      asked.push([...ids])
      const there = ids.filter((id) => id !== 'load:none')
      return Promise.resolve(new Map(there.map((id) => [id, knownAs('load', id as 'load:a')])))
    },
    links: () => Promise.resolve([]),
    standing: () => Promise.resolve([]),
  } as unknown as Look)
  const [first, second] = await Promise.all([look.known(['load:a', 'load:none']), look.known(['load:b', 'load:a'])])
  assert.deepEqual([...first.keys()], ['load:a'])
  assert.deepEqual([...second.keys()], ['load:b', 'load:a'])
  assert.deepEqual([...(await look.known(['load:none', 'load:b'])).keys()], ['load:b'])
  assert.deepEqual(asked, [['load:a', 'load:none'], ['load:b']])
})
