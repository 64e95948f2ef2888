import assert from 'node:assert/strict'
import { describe, test } from 'node:test'
import { compareForFold } from '#road/entry.ts'
import type { Journal } from '#journal/journal.ts'
import { entryId, join, makeSet, mark, minutes, sent, site, withdraw } from '../../support/entries.ts'
import type { EngineUnderTest, StoreUnderTest } from '../../support/store-under-test.ts'
import type { ToyState } from '../../support/toy-road.ts'
import { keepAll, marksOf, open, wantSound } from './opened.ts'

export function correcting(engine: EngineUnderTest): void {
  const story = (name: string, tell: (journal: Journal, store: StoreUnderTest) => Promise<void>): void => {
    test(name, async () => {
      await using store = await engine.newStore()
      await using journal = await open(store)
      await keepAll(journal, [makeSet(1, 'a'), makeSet(2, 'b'), makeSet(3, 'c')])
      await tell(journal, store)
      await wantSound(store)
    })
  }

  describe('late entries', () => {
    story('a late entry is folded where it belongs', async (journal) => {
      await keepAll(journal, [mark(10, 'a', { at: minutes(10) }), mark(30, 'a', { at: minutes(30) })])
      await keepAll(journal, [mark(20, 'a', { at: minutes(20) })])
      assert.deepEqual(await marksOf(journal, 'a'), ['m10', 'm20', 'm30'])
    })

    story('entries of the same moment are folded by their ids and chained as they came', async (journal) => {
      const both = [mark(31, 'a', { at: minutes(5) }), mark(30, 'a', { at: minutes(5) })]
      const [second, first] = await keepAll(journal, both)
      assert.deepEqual(await marksOf(journal, 'a'), ['m30', 'm31'])
      assert.equal(first?.seq, (second?.seq ?? 0) + 1)
    })

    story('as it was known then is the same fold up to that entry', async (journal) => {
      const [late] = await keepAll(journal, [mark(10, 'a', { at: minutes(10) })])
      await keepAll(journal, [mark(5, 'a', { at: minutes(5) }), mark(11, 'a', { corrects: 10, at: minutes(12) })])
      const then = (seq: number) => journal.read(site).asOf(seq)
      const known = async (seq: number) => (await then(seq).known(['set:a'])).get('set:a') as unknown as ToyState
      assert.equal(late?.seq, 4)
      assert.equal(await known(0), undefined)
      assert.deepEqual((await known(1)).marks, [])
      assert.deepEqual((await known(4)).marks, ['m10'])
      assert.deepEqual((await known(5)).marks, ['m5', 'm10'])
      assert.deepEqual((await known(6)).marks, ['m5', 'm11'])
    })

    story(
      'where subjects stood then is told of all of them, those that were touched since and the others',
      async (journal) => {
        const seal = (number: number, set: string) =>
          sent({ number, kind: 'set-sealed', body: { set: `set:${set}` }, at: minutes(number) })
        // Four sets, of which one is sealed; then another is, the first seal is withdrawn, and so is the third set.
        await keepAll(journal, [makeSet(4, 'd'), mark(10, 'a'), mark(11, 'b'), seal(12, 'b')])
        await keepAll(journal, [seal(13, 'a'), withdraw(14, 12), withdraw(15, 3), makeSet(16, 'e')])
        const ids = async (seq: number, ...standings: readonly string[]) =>
          (await journal.read(site).asOf(seq).standing('set', standings)).map(({ id }) => id)
        assert.deepEqual(await ids(7, 'open'), ['set:a', 'set:c', 'set:d'])
        assert.deepEqual(await ids(7, 'sealed'), ['set:b'])
        assert.deepEqual(await ids(11, 'open', 'sealed'), ['set:b', 'set:d', 'set:e', 'set:a'])
        assert.deepEqual(await ids(11, 'sealed'), ['set:a'])
        assert.deepEqual(await ids(11), [])
      },
    )
  })

  describe('a subject with a long history', () => {
    const history = Array.from({ length: 600 }, (_, index) => mark(1000 + index, 'a', { at: minutes(index / 100) }))
    const marks = (entries: readonly { body: Record<string, unknown> }[]) => entries.map(({ body }) => body['mark'])

    story('takes late entries in, alone and together', async (journal) => {
      const late = (number: number, at: number) => mark(number, 'a', { at: minutes(at) })
      await keepAll(journal, history)
      await keepAll(journal, [late(2000, 5.995)])
      await keepAll(journal, [late(2001, 3.005), late(2002, 1.005), late(2003, 4.005)])
      const all = [...history, late(2000, 5.995), late(2001, 3.005), late(2002, 1.005), late(2003, 4.005)]
      assert.deepEqual(await marksOf(journal, 'a'), marks(all.sort(compareForFold)))
    })

    story('takes late entries in around corrections that reach over them', async (journal) => {
      await keepAll(journal, history)
      // Said to have happened much later than what it corrects, with a rival in between.
      await keepAll(journal, [mark(3000, 'a', { at: minutes(5.9), corrects: 1010 })])
      await keepAll(journal, [mark(3001, 'a', { at: minutes(5.801) })])
      await keepAll(journal, [mark(3002, 'a', { at: minutes(0.3), corrects: 1010 })])
      await keepAll(journal, [mark(3003, 'a', { at: minutes(5.802) })])
      await keepAll(journal, [withdraw(3004, 1590)])
      await keepAll(journal, [mark(3005, 'a', { at: minutes(5.803) })])
      const known = await marksOf(journal, 'a')
      assert.equal(known?.length, 600 - 1 + 3)
      assert.deepEqual(
        known.filter((text) => text.startsWith('m30')),
        ['m3002', 'm3001', 'm3003', 'm3005'],
      )
    })
  })

  describe('corrections', () => {
    story('a corrected entry no longer counts; both stay', async (journal) => {
      await keepAll(journal, [mark(10, 'a', { at: minutes(1) }), mark(20, 'a', { corrects: 10, at: minutes(2) })])
      assert.deepEqual(await marksOf(journal, 'a'), ['m20'])
      const about = await journal.read(site).entriesAbout('set:a')
      assert.deepEqual(
        about.map(({ id }) => id),
        [1, 10, 20].map(entryId),
      )
    })

    story('a correction of a correction stands', async (journal) => {
      await keepAll(journal, [mark(10, 'a'), mark(20, 'a', { corrects: 10 }), mark(30, 'a', { corrects: 20 })])
      assert.deepEqual(await marksOf(journal, 'a'), ['m30'])
    })

    story('of two corrections of one entry the one kept last stands, whatever the clocks say', async (journal) => {
      await keepAll(journal, [mark(10, 'a'), mark(40, 'a', { corrects: 10, mark: 'fast clock' })])
      await keepAll(journal, [mark(20, 'a', { corrects: 10, mark: 'right clock' })])
      assert.deepEqual(await marksOf(journal, 'a'), ['right clock'])
      await journal.refold()
      assert.deepEqual(await marksOf(journal, 'a'), ['right clock'])
    })

    story('a correction of what another has corrected already says so', async (journal) => {
      await keepAll(journal, [mark(10, 'a'), mark(20, 'a', { corrects: 10 })])
      const [rival] = await keepAll(journal, [mark(30, 'a', { corrects: 10 })])
      const rules = (findings: readonly { rule: string }[] | undefined) => findings?.map(({ rule }) => rule) ?? []
      assert.ok(rules(rival?.judgement.findings).includes('correction-of-corrected'))
      const [last] = await keepAll(journal, [mark(25, 'a', { corrects: 30, mark: 'last' })])
      assert.deepEqual(await marksOf(journal, 'a'), ['last'])
      assert.ok(!rules(last?.judgement.findings).includes('correction-of-corrected'))
    })

    story('a withdrawn entry is gone from what is known, and can be put back', async (journal) => {
      await keepAll(journal, [mark(10, 'a'), withdraw(20, 10)])
      assert.deepEqual(await marksOf(journal, 'a'), [])
      await keepAll(journal, [mark(30, 'a', { corrects: 10 })])
      assert.deepEqual(await marksOf(journal, 'a'), ['m30'])
    })

    story('a correction may move an entry to another subject', async (journal) => {
      await keepAll(journal, [mark(10, 'a'), mark(20, 'b', { corrects: 10 })])
      assert.deepEqual(await marksOf(journal, 'a'), [])
      assert.deepEqual(await marksOf(journal, 'b'), ['m20'])
    })

    story('a rival correction takes an entry away from where another had moved it', async (journal) => {
      await keepAll(journal, [mark(10, 'a'), mark(20, 'b', { corrects: 10 })])
      // Corrects the first one too, not the one that had moved it: b must still come to know.
      await keepAll(journal, [mark(30, 'c', { corrects: 10 })])
      assert.deepEqual(await marksOf(journal, 'a'), [])
      assert.deepEqual(await marksOf(journal, 'b'), [])
      assert.deepEqual(await marksOf(journal, 'c'), ['m30'])
    })

    story('links follow the entry that stands', async (journal) => {
      const ends = async () =>
        (await journal.read(site).links({ end: 'from', subjects: ['set:a'] })).map(({ to, entry }) => [to, entry])
      await keepAll(journal, [join(10, ['a', 'b'])])
      assert.deepEqual(await ends(), [['set:b', entryId(10)]])
      await keepAll(journal, [join(20, ['a', 'c'], { corrects: 10 })])
      assert.deepEqual(await ends(), [['set:c', entryId(20)]])
      await keepAll(journal, [withdraw(30, 20)])
      assert.deepEqual(await ends(), [])
    })

    story('what a withdrawn entry had made is no longer known, and may be made again', async (journal) => {
      await keepAll(journal, [makeSet(40, 'd'), withdraw(41, 40)])
      assert.equal(await marksOf(journal, 'd'), undefined)
      assert.equal((await journal.append(mark(42, 'd'))).kind, 'unusable')
      await keepAll(journal, [makeSet(43, 'd'), mark(44, 'd', { at: minutes(1) })])
      assert.deepEqual(await marksOf(journal, 'd'), ['m44'])
    })

    story('what was withdrawn is not known to the next entry of the same batch', async (journal) => {
      const outcomes = await journal.appendMany([makeSet(40, 'd'), withdraw(41, 40), mark(42, 'd')])
      assert.deepEqual(
        outcomes.map(({ kind }) => kind),
        ['kept', 'kept', 'unusable'],
      )
    })

    story('a subject made under a wrong name is made under another', async (journal) => {
      await keepAll(journal, [makeSet(40, 'wrong'), makeSet(41, 'right', { corrects: 40 })])
      assert.equal(await marksOf(journal, 'wrong'), undefined)
      assert.deepEqual(await marksOf(journal, 'right'), [])
      // And a correction that keeps the name does not clash with what it corrects.
      await keepAll(journal, [makeSet(42, 'right', { corrects: 41, at: minutes(1) })])
    })

    story('an entry and its correction may come in one batch', async (journal) => {
      await keepAll(journal, [
        mark(10, 'a', { at: minutes(1) }),
        mark(11, 'a', { at: minutes(2) }),
        mark(12, 'b', { corrects: 10, at: minutes(1) }),
        mark(13, 'b', { at: minutes(3) }),
        withdraw(14, 13),
      ])
      assert.deepEqual(await marksOf(journal, 'a'), ['m11'])
      assert.deepEqual(await marksOf(journal, 'b'), ['m12'])
    })
  })
}
