import assert from 'node:assert/strict'
import { describe, test } from 'node:test'
import { entryId, join, makeSet, mark, minutes, otherSite, sent, site, start } from '../../support/entries.ts'
import type { EngineUnderTest } from '../../support/store-under-test.ts'
import { keepAll, kept, marksOf, open, standingClock, wantSound } from './opened.ts'

export function appending(engine: EngineUnderTest): void {
  describe('appending', () => {
    test('an entry is kept with its place in the chain, and read back as it was kept', async () => {
      await using store = await engine.newStore()
      await using journal = await open(store)
      const [first, second] = await keepAll(journal, [makeSet(1, 'a'), mark(2, 'a')])
      assert.ok(first && second)
      assert.equal(first.seq, 1)
      assert.equal(first.previousHash, '0'.repeat(64))
      assert.equal(second.previousHash, first.hash)
      const reader = journal.read(site)
      assert.deepEqual(await reader.entry(second.id), second)
      assert.deepEqual(await reader.entries({ afterSeq: 0, limit: 10 }), [first, second])
      assert.deepEqual(await reader.entriesAbout('set:a'), [first, second])
      assert.deepEqual(await reader.head(), { seq: 2, hash: second.hash, recordedAt: second.recordedAt })
      await wantSound(store)
    })

    test('the same entry again is not kept again; another with its id is refused', async () => {
      await using store = await engine.newStore()
      await using journal = await open(store)
      const first = kept(await journal.append(makeSet(1, 'a')))
      assert.deepEqual(await journal.append(makeSet(1, 'a')), { kind: 'alreadyKept', entry: first })
      assert.deepEqual(await journal.append(makeSet(1, 'b')), { kind: 'idTaken', entry: first })
      const elsewhere = await journal.append(makeSet(1, 'a', { site: otherSite }))
      assert.deepEqual(elsewhere, { kind: 'idTaken', entry: first })
      assert.equal((await journal.read(site).head())?.seq, 1)
      assert.deepEqual(await journal.sites(), [site])
    })

    test('a repeat within one batch is found too', async () => {
      await using store = await engine.newStore()
      await using journal = await open(store)
      const outcomes = await journal.appendMany([makeSet(1, 'a'), makeSet(1, 'a'), mark(1, 'a'), mark(2, 'a')])
      assert.deepEqual(
        outcomes.map((outcome) => outcome.kind),
        ['kept', 'alreadyKept', 'idTaken', 'kept'],
      )
    })

    test('entries in one batch see those before them', async () => {
      await using store = await engine.newStore()
      await using journal = await open(store)
      const seal = sent({ number: 3, kind: 'set-sealed', body: { set: 'set:a' }, at: minutes(3) })
      const again = sent({ number: 4, kind: 'set-sealed', body: { set: 'set:a' }, at: minutes(4) })
      const outcomes = await journal.appendMany([makeSet(1, 'a'), mark(2, 'a', { at: minutes(2) }), seal, again])
      assert.deepEqual(
        outcomes.map((outcome) => outcome.kind),
        ['kept', 'kept', 'kept', 'refused'],
      )
    })

    test('a decision that the rules refuse writes nothing; a fact with the same findings is kept', async () => {
      await using store = await engine.newStore()
      await using journal = await open(store)
      await keepAll(journal, [makeSet(1, 'a')])
      const seal = sent({ number: 2, kind: 'set-sealed', body: { set: 'set:a' } })
      const refused = await journal.append(seal)
      assert.ok(refused.kind === 'refused')
      assert.deepEqual(
        refused.findings.map(({ rule }) => rule),
        ['no-mark'],
      )
      assert.equal(refused.policy, 'toy policy')
      assert.equal((await journal.read(site).head())?.seq, 1)
      await keepAll(journal, [mark(3, 'a', { at: minutes(1) }), { ...seal, happenedAt: minutes(2) }])
      const fact = kept(await journal.append(mark(4, 'a', { at: minutes(3) })))
      assert.equal(fact.judgement.findings[0]?.rule, 'already-sealed')
      await wantSound(store)
    })

    test('a trial judgement tells what would come of an entry and writes nothing', async () => {
      await using store = await engine.newStore()
      await using journal = await open(store)
      await keepAll(journal, [makeSet(1, 'a')])
      const seal = sent({ number: 2, kind: 'set-sealed', body: { set: 'set:a' } })
      assert.equal((await journal.judge(seal)).kind, 'refused')
      assert.deepEqual(await journal.judge(mark(3, 'a')), { kind: 'wouldBeKept', policy: 'toy policy', findings: [] })
      assert.equal((await journal.judge(mark(3, 'b'))).kind, 'unusable')
      assert.equal((await journal.judge(makeSet(1, 'a'))).kind, 'alreadyKept')
      assert.equal((await journal.read(site).head())?.seq, 1)
    })

    test('a step hangs on who did it, the steps of the program itself excepted', async () => {
      await using store = await engine.newStore()
      await using journal = await open(store)
      const ann = sent({ number: 1, kind: 'person-registered', body: { person: 'person:ann' }, by: 'person:ann' })
      await keepAll(journal, [ann, makeSet(2, 'a'), join(3, ['a', 'a'], { by: 'person:ann', at: minutes(1) })])
      const reader = journal.read(site)
      assert.deepEqual(await reader.links({ end: 'to', subjects: ['person:ann', 'person:nilgrowth'] }), [
        { from: 'set:a', relation: 'by', to: 'person:ann', at: minutes(1), entry: entryId(3) },
      ])
      assert.equal((await reader.links({ end: 'from', subjects: ['set:a'], relations: ['follows'] })).length, 1)
    })

    test('sites have chains and subjects of their own', async () => {
      await using store = await engine.newStore()
      await using journal = await open(store)
      const outcomes = await journal.appendMany([
        makeSet(1, 'a'),
        makeSet(2, 'a', { site: otherSite }),
        mark(3, 'a'),
        mark(4, 'a', { site: otherSite }),
      ])
      assert.deepEqual(
        outcomes.map((outcome) => kept(outcome).seq),
        [1, 1, 2, 2],
      )
      assert.equal(await journal.read(otherSite).entry(entryId(1)), undefined)
      assert.deepEqual(await marksOf(journal, 'a'), ['m3'])
      await wantSound(store)
    })

    test('listeners are told after the commit what was kept and what changed', async () => {
      await using store = await engine.newStore()
      await using journal = await open(store)
      const told: unknown[] = []
      const stop = journal.subscribe(({ entries, changed }) => told.push([entries.map(({ seq }) => seq), changed]))
      await keepAll(journal, [makeSet(1, 'a'), mark(2, 'a')])
      await journal.append(makeSet(1, 'a'))
      stop()
      await keepAll(journal, [mark(3, 'a')])
      assert.deepEqual(told, [[[1, 2], ['set:a']]])
    })

    test('attachments are kept once by their digest', async () => {
      await using store = await engine.newStore()
      await using journal = await open(store)
      const bytes = new TextEncoder().encode('time,C\n0,20\n')
      const digest = await journal.attach(bytes, 'text/csv')
      assert.equal(await journal.attach(bytes, 'text/csv'), digest)
      const attachment = await journal.read(site).attachment(digest)
      assert.ok(attachment)
      assert.equal(attachment.mediaType, 'text/csv')
      assert.deepEqual(new Uint8Array(attachment.bytes), bytes)
    })

    test('lists go on page by page, newest standing first or oldest first', async () => {
      await using store = await engine.newStore()
      await using journal = await open(store)
      await keepAll(
        journal,
        ['a', 'b', 'c', 'd'].map((set, index) => makeSet(index, set, { at: minutes(Math.floor(index / 2)) })),
      )
      const reader = journal.read(site)
      const first = await reader.knownOfKind('set', { limit: 3 })
      assert.deepEqual(
        first.map(({ subject }) => subject),
        ['set:d', 'set:c', 'set:b'],
      )
      const after = first.at(-1)
      assert.ok(after)
      assert.deepEqual(
        (await reader.knownOfKind('set', { limit: 3, after })).map(({ subject }) => subject),
        ['set:a'],
      )
      const oldest = await reader.knownOfKind('set', { limit: 1, order: 'oldestFirst', standings: ['open'] })
      assert.deepEqual(
        oldest.map(({ subject, since }) => [subject, since]),
        [['set:a', start]],
      )
      assert.deepEqual(await reader.knownOfKind('set', { limit: 3, standings: ['sealed'] }), [])
    })

    test('the clock that recorded is the one handed in', async () => {
      await using store = await engine.newStore()
      const clock = standingClock(minutes(90))
      await using journal = await open(store, clock)
      assert.equal(kept(await journal.append(makeSet(1, 'a'))).recordedAt, minutes(90))
    })
  })
}
