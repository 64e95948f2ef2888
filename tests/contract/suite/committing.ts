import assert from 'node:assert/strict'
import { describe, test } from 'node:test'
import { type SentEntry, compareForFold } from '#road/entry.ts'
import type { Road } from '#road/road.ts'
import { join, makeSet, mark, minutes, sent, site } from '../../support/entries.ts'
import type { EngineUnderTest } from '../../support/store-under-test.ts'
import { toyRoad } from '../../support/toy-road.ts'
import { keepAll, kept, marksOf, open, wantSound } from './opened.ts'

export function committing(engine: EngineUnderTest): void {
  describe('group commit', () => {
    test('concurrent appends share commits', async () => {
      await using store = await engine.newStore()
      await using journal = await open(store)
      let commits = 0
      journal.subscribe(() => (commits += 1))
      const outcomes = await Promise.all(
        Array.from({ length: 100 }, (_, index) => journal.append(makeSet(index, `s${index}`))),
      )
      assert.deepEqual(
        outcomes.map((outcome) => kept(outcome).seq).toSorted((a, b) => a - b),
        Array.from({ length: 100 }, (_, index) => index + 1),
      )
      assert.ok(commits < 20, `${commits} commits for 100 entries`)
      await wantSound(store)
    })

    test('an append is answered only when another connection can see the entry', async () => {
      await using store = await engine.newStore()
      await using journal = await open(store)
      await using other = await open(store)
      const appends = Array.from({ length: 30 }, async (_, index) => {
        const entry = kept(await journal.append(makeSet(index, `s${index}`)))
        assert.deepEqual(await other.read(site).entry(entry.id), entry)
      })
      await Promise.all(appends)
    })

    test('the rules see the links and standings of the entries before, in the same batch', async () => {
      await using store = await engine.newStore()
      const seen: unknown[] = []
      const road: Road = {
        ...toyRoad(),
        async judge(look) {
          const links = await look.links({ end: 'to', subjects: ['set:b'] })
          const open = await look.standing('set', ['open'])
          const sealed = await look.standing('set', ['sealed'])
          seen.push([links.length, open.length, sealed.length])
          return { policy: 'toy policy', findings: [], refused: false }
        },
      }
      await using journal = await open(store, { road })
      const seal = sent({ number: 5, kind: 'set-sealed', body: { set: 'set:a' }, at: minutes(3) })
      const last = mark(6, 'a', { at: minutes(4) })
      await keepAll(journal, [makeSet(1, 'a'), makeSet(2, 'b'), join(3, ['a', 'b'], { at: minutes(1) }), seal, last])
      assert.deepEqual(seen, [
        [0, 0, 0],
        [0, 1, 0],
        [0, 2, 0],
        [1, 2, 0],
        [1, 1, 1],
      ])
    })

    test('several late entries in one batch are folded in from the first of them', async () => {
      await using store = await engine.newStore()
      const unlooking: Road = {
        ...toyRoad(),
        judge: () => Promise.resolve({ policy: 'toy policy', findings: [], refused: false }),
      }
      await using journal = await open(store, { road: unlooking })
      const history = Array.from({ length: 400 }, (_, index) =>
        mark(1000 + index, 'a', { at: minutes(1 + index / 10) }),
      )
      await keepAll(journal, [makeSet(1, 'a'), ...history])
      const late = [30, 2, 15].map((minute, index) => mark(2000 + index, 'a', { at: minutes(minute + 0.05) }))
      await keepAll(journal, late)
      const inOrder = [...history, ...late].toSorted(compareForFold).map(({ body }) => body['mark'])
      assert.deepEqual(await marksOf(journal, 'a'), inOrder)
      await wantSound(store)
    })

    test('two programs on one store keep one chain', async () => {
      await using store = await engine.newStore()
      await using one = await open(store)
      await using two = await open(store)
      await Promise.all(
        Array.from({ length: 60 }, async (_, index) =>
          kept(await (index % 2 ? one : two).append(makeSet(index, `s${index}`))),
        ),
      )
      assert.equal((await one.read(site).head())?.seq, 60)
      await wantSound(store)
    })

    test('an entry on which the program stumbles takes no other with it', async () => {
      await using store = await engine.newStore()
      const road = toyRoad()
      const stumbling = {
        ...road,
        foldOf: () => {
          const fold = road.foldOf('set')
          return { ...fold, evolve: stumbleOn('bad', fold.evolve) }
        },
      }
      await using journal = await open(store, { road: stumbling })
      await keepAll(journal, [makeSet(1, 'a')])
      const marks = ['good', 'bad', 'fine'].map((text, index) =>
        mark(10 + index, 'a', { mark: text, at: minutes(index) }),
      )
      const settled = await Promise.allSettled(marks.map((entry) => journal.append(entry)))
      assert.deepEqual(
        settled.map(({ status }) => status),
        ['fulfilled', 'rejected', 'fulfilled'],
      )
      assert.deepEqual(await marksOf(journal, 'a'), ['good', 'fine'])
      await wantSound(store)
    })

    test('closing waits for what was appended, and nothing is appended after it', async () => {
      await using store = await engine.newStore()
      const journal = await open(store)
      const appends = Array.from({ length: 20 }, (_, index) => journal.append(makeSet(index, `s${index}`)))
      await journal.close()
      for (const outcome of await Promise.all(appends)) kept(outcome)
      await assert.rejects(journal.append(makeSet(99, 'z')), /the journal is closed/)
      await wantSound(store)
    })

    test('many entries keep their order over several commits', async () => {
      await using store = await engine.newStore()
      await using journal = await open(store)
      const entries: SentEntry[] = [makeSet(1, 'a')]
      for (let index = 2; index <= 700; index += 1) entries.push(mark(index, 'a', { at: minutes(index % 50) }))
      entries.push(sent({ number: 701, kind: 'set-sealed', body: { set: 'set:a' }, at: minutes(51) }))
      const all = await keepAll(journal, entries)
      assert.deepEqual(
        all.map(({ seq }) => seq),
        Array.from({ length: 701 }, (_, index) => index + 1),
      )
      await wantSound(store)
    })
  })
}

function stumbleOn<E, S>(word: string, evolve: (state: S, entry: E) => S): (state: S, entry: E) => S {
  return (state, entry) => {
    if (JSON.stringify(entry).includes(`"${word}"`)) throw new Error(`Stumbled on ${word}`)
    return evolve(state, entry)
  }
}
