import assert from 'node:assert/strict'
import { describe, test } from 'node:test'
import { describeProblem } from '#units/problem.ts'
import type { Journal } from '#journal/journal.ts'
import type { SentEntry } from '#road/entry.ts'
import { entryId, join, makeSet, mark, minutes, otherSite, sent, site, withdraw } from '../../support/entries.ts'
import type { EngineUnderTest } from '../../support/store-under-test.ts'
import { keepAll, kept, open, standingClock } from './opened.ts'

export function refusing(engine: EngineUnderTest): void {
  const refuses = (name: string, entry: () => SentEntry, says: readonly string[]): void => {
    test(name, async () => {
      await using store = await engine.newStore()
      await using journal = await open(store)
      await keepAll(journal, [makeSet(1, 'a'), makeSet(2, 'b'), mark(3, 'a')])
      assert.deepEqual(await problems(journal, entry()), says)
      assert.equal((await journal.read(site).head())?.seq, 3)
    })
  }

  describe('what is unusable is told and writes nothing', () => {
    refuses('an unknown kind', () => sent({ number: 9, kind: 'set-polished', body: {} }), [
      'kind: wanted a kind of entry that this version knows, current value is "set-polished"',
    ])
    refuses('a body of the wrong form', () => sent({ number: 9, kind: 'set-marked', body: { set: 'a', mark: 7 } }), [
      'set: wanted "set:" followed by 1 to 64 letters, digits, "." "_" or "-", current value is "a"',
      'mark: wanted string, current value is 7',
    ])
    refuses('an unknown subject', () => join(9, ['a', 'nowhere']), [
      'body: wanted subjects that are known, current value is "set:nowhere", which is not known here',
    ])
    refuses('an unknown person', () => mark(9, 'a', { by: 'person:ghost' }), [
      'by: wanted a person who is known, current value is "person:ghost", who is not known here',
    ])
    refuses('an unknown person who allows an exception', () => excepted('person:ghost'), [
      'exception.allowedBy: wanted a person who is known, current value is "person:ghost", who is not known here',
    ])
    refuses('a subject that was made before', () => makeSet(9, 'a'), [
      'body: wanted a new subject, current value is "set:a", which another entry made',
    ])
    refuses('a time that has not come', () => mark(9, 'a', { at: minutes(66) }), [
      'happenedAt: wanted at most 5 minutes after now, 2026-11-25T10:00:00.000Z, current value is "2026-11-25T10:06:00.000Z", 6 minutes later',
    ])
    refuses('a time of long ago', () => ({ ...mark(9, 'a'), happenedAt: '1999-12-31T23:59:59.999Z' as never }), [
      'happenedAt: wanted a time after the year 1999, current value is "1999-12-31T23:59:59.999Z"',
    ])
    refuses('a correction of an entry that is not known', () => mark(9, 'a', { corrects: 77 }), [
      `corrects: wanted an entry kept at this site, current value is "${entryId(77)}", which is not`,
    ])
    refuses('a correction by an entry of another kind', () => mark(9, 'a', { corrects: 1 }), [
      'kind: wanted "set-made", as the entry that it corrects, or "entry-withdrawn", current value is "set-marked"',
    ])
    refuses('a withdrawal of nothing', () => sent({ number: 9, kind: 'entry-withdrawn', body: { why: 'x' } }), [
      'corrects: wanted the id of the entry that is withdrawn, current value is missing',
    ])
    refuses('an entry that is too large', () => mark(9, 'a', { mark: 'x'.repeat(300_000) }), [
      'body: wanted an entry of at most 262144 bytes; attach a file instead, current value is 300200 bytes',
    ])
    refuses('an entry that is too deep', () => ({ ...mark(9, 'a'), body: nested(100_000) }), [
      'body: wanted at most 64 levels, current value is deeper',
    ])
    refuses('text that has no UTF-8 form', () => mark(9, 'a', { mark: '\ud800' }), [
      'body: wanted well-formed Unicode text, current value is a lone surrogate',
    ])
    refuses('no entry at all', () => null as never, ['input: wanted object, current value is null'])
  })

  test('a correction of an entry of another site is unusable', async () => {
    await using store = await engine.newStore()
    await using journal = await open(store)
    await keepAll(journal, [makeSet(1, 'a')])
    const [says] = await problems(journal, withdraw(2, 1, { site: otherSite }))
    assert.match(says ?? '', /^corrects: wanted an entry kept at this site/)
  })

  test('a clock a few minutes ahead, a policy changed twice and a person registering themselves are usable', async () => {
    await using store = await engine.newStore()
    await using journal = await open(store, standingClock())
    const change = (number: number) =>
      sent({ number, kind: 'policy-changed', body: { policy: 'policy:unit', mark: `${number}` }, by: 'person:ann' })
    kept(await journal.append(makeSet(1, 'a', { at: minutes(65) })))
    const ann = { number: 2, kind: 'person-registered', body: { person: 'person:ann' }, by: 'person:ann' }
    await keepAll(journal, [sent(ann), change(3), change(4)])
  })
}

async function problems(journal: Journal, entry: SentEntry): Promise<string[]> {
  const outcome = await journal.append(entry)
  assert.ok(outcome.kind === 'unusable', JSON.stringify(outcome))
  return outcome.problems.map(describeProblem)
}

function excepted(allowedBy: 'person:ghost'): SentEntry {
  return { ...mark(9, 'a'), exception: { allowedBy, rules: ['any'], why: 'the patient was waiting' } }
}

function nested(levels: number): SentEntry['body'] {
  let value: SentEntry['body'] = {}
  for (let level = 0; level < levels; level += 1) value = { deeper: value }
  return value
}
