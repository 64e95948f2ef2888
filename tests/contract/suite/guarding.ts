import assert from 'node:assert/strict'
import { describe, test } from 'node:test'
import { verify } from '#journal/verify/verify.ts'
import { describeFault } from '#journal/verify/fault.ts'
import { join, makeSet, mark, minutes, sent, site } from '../../support/entries.ts'
import type { EngineUnderTest, StoreUnderTest } from '../../support/store-under-test.ts'
import { toyRoad } from '../../support/toy-road.ts'
import { keepAll, open, wantSound } from './opened.ts'

/** A store with a few entries and an attachment, closed. */
async function filled(engine: EngineUnderTest): Promise<StoreUnderTest> {
  const store = await engine.newStore()
  await using journal = await open(store)
  await keepAll(journal, [
    makeSet(1, 'a'),
    makeSet(2, 'b'),
    mark(3, 'a', { at: minutes(1) }),
    join(4, ['a', 'b'], { at: minutes(2) }),
    mark(5, 'b', { at: minutes(3) }),
    mark(6, 'b', { at: minutes(4), corrects: 5 }),
  ])
  await journal.attach(new Uint8Array([1, 2, 3]), 'application/octet-stream')
  return store
}

export function guarding(engine: EngineUnderTest): void {
  describe('the database itself refuses a change of the record', () => {
    const statements = [
      'UPDATE entry SET kind = kind',
      "UPDATE entry SET text = 'x' WHERE seq = 1",
      'DELETE FROM entry',
      'UPDATE attachment SET media_type = media_type',
      'DELETE FROM attachment',
      ...(engine.name === 'postgres' ? ['TRUNCATE entry CASCADE', 'TRUNCATE attachment'] : []),
      ...(engine.name === 'sqlite'
        ? ['INSERT OR REPLACE INTO entry SELECT * FROM entry', 'REPLACE INTO attachment SELECT * FROM attachment']
        : []),
    ]
    for (const statement of statements) {
      test(statement, async () => {
        await using store = await filled(engine)
        await assert.rejects(store.tamper(statement), /the journal is append only/)
        await wantSound(store)
      })
    }
  })

  describe('verify names the first thing that was tampered with', () => {
    const catches = (name: string, statements: readonly string[], says: RegExp): void => {
      test(name, async () => {
        await using store = await filled(engine)
        await store.dropGuards()
        await store.tamper(...statements)
        const result = await verify({ at: store.at, road: toyRoad() })
        assert.ok(result.kind === 'faulty', 'wanted a fault to be found')
        assert.match(describeFault(result.fault), says)
      })
    }

    const copy = (seq: number, from: number) =>
      `INSERT INTO entry SELECT site, ${seq}, id || 'x', kind, happened_at, recorded_at, corrects, text, hash FROM entry WHERE seq = ${from}`
    catches(
      'an altered text',
      ["UPDATE entry SET text = replace(text, 'm3', 'm9') WHERE seq = 3"],
      /^entry 3 .*its text gives the hash/,
    )
    catches(
      'an altered hash',
      ["UPDATE entry SET hash = replace(hash, 'a', 'b') WHERE seq = 2"],
      /^entry 2 .*its text gives the hash/,
    )
    catches('a removed entry', ['DELETE FROM entry WHERE seq = 3'], /^entry 4 .*wanted entry 3 here/)
    catches(
      'a removed last entry',
      ['DELETE FROM entry WHERE seq = 6'],
      /^head of site unit-a: the chain ends at entry 5/,
    )
    catches('an added entry', [copy(7, 3)], /^entry 7 .*it does not name the hash of the entry before it/)
    catches(
      'swapped entries',
      [
        'UPDATE entry SET seq = 99 WHERE seq = 2',
        'UPDATE entry SET seq = 2 WHERE seq = 3',
        'UPDATE entry SET seq = 3 WHERE seq = 99',
      ],
      /^entry 2 .*it does not name the hash of the entry before it/,
    )
    catches(
      'a column that differs from the text',
      ["UPDATE entry SET kind = 'set-made' WHERE seq = 3"],
      /^entry 3 .*its column kind is set-made/,
    )
    catches(
      'a known state that was changed',
      ["UPDATE known SET state = replace(state, 'm3', 'm4') WHERE subject = 'set:a'"],
      /^known of set:a .*its entries give state/,
    )
    catches(
      'a standing that was changed',
      ["UPDATE known SET standing = 'sealed' WHERE subject = 'set:b'"],
      /^known of set:b .*its entries give standing open, but stored is sealed/,
    )
    catches(
      'a known subject that was removed',
      ["DELETE FROM known WHERE subject = 'set:b'"],
      /^known of set:b .*nothing is stored/,
    )
    catches(
      'a known subject that was added',
      [
        "INSERT INTO known SELECT site, 'set:z', kind, standing, since, state, folded_at, folded_id, entries FROM known WHERE subject = 'set:a'",
      ],
      /^known of set:z .*no entry says anything/,
    )
    catches(
      'a milestone that was planted',
      ['INSERT INTO milestone SELECT site, subject, standing, since, state, folded_at, folded_id, 128 FROM known'],
      /^known of set:a .*a milestone is stored for 128 entries/,
    )
    catches('a missing link', ["DELETE FROM link WHERE to_subject = 'set:b'"], /^links of set:a .*is missing/)
    catches(
      'an added link',
      ["INSERT INTO link SELECT site, from_subject, relation, 'set:z', at, entry FROM link"],
      /^links of set:a .*follows from no entry/,
    )
    catches(
      'a link of no entry',
      ["INSERT INTO link SELECT site, from_subject, relation, to_subject, at, 'none' FROM link"],
      /^links of set:a .*an entry that is not kept/,
    )
    catches(
      'a subject that an entry is no longer about',
      ["DELETE FROM about WHERE subject = 'set:b' AND seq = 5"],
      /^about of set:b .*is missing/,
    )
    catches(
      'an entry about one subject more',
      ["INSERT INTO about SELECT site, 'set:z', happened_at, id, seq FROM about WHERE seq = 3"],
      /^about of set:z .*follows from no entry/,
    )
    catches(
      'an altered attachment',
      [engine.name === 'sqlite' ? "UPDATE attachment SET bytes = x'00'" : "UPDATE attachment SET bytes = '\\x00'"],
      /^attachment .*its bytes give the digest/,
    )
    catches('a head that was set back', ['UPDATE head SET seq = 5'], /^head of site unit-a/)
  })

  test('verify names a file that an entry was made from and that is gone', async () => {
    await using store = await filled(engine)
    {
      await using journal = await open(store)
      const file = await journal.attach(new Uint8Array([4, 5, 6]), 'image/png')
      await keepAll(journal, [
        sent({ number: 7, kind: 'set-photographed', body: { set: 'set:a', file }, at: minutes(5) }),
      ])
    }
    await wantSound(store)
    await store.dropGuards()
    await store.tamper('DELETE FROM attachment')
    const result = await verify({ at: store.at, road: toyRoad() })
    assert.ok(result.kind === 'faulty', 'wanted a fault to be found')
    assert.match(describeFault(result.fault), /^attachment [0-9a-f]{64}: entry 7 of site unit-a names it/)
  })

  test('a store of a newer version is left alone', async () => {
    await using store = await filled(engine)
    await store.tamper("UPDATE meta SET value = '99' WHERE name = 'format'")
    await assert.rejects(open(store), /tables of format 99, from a newer version/)
  })

  test('what is derived can be made anew, and is by itself when the road has changed', async () => {
    await using store = await filled(engine)
    await store.tamper('DELETE FROM link', 'DELETE FROM about', "UPDATE known SET state = '{}'", 'DELETE FROM head')
    {
      await using journal = await open(store)
      assert.equal(await journal.refold(), 6)
      assert.equal((await journal.read(site).head())?.seq, 6)
    }
    await wantSound(store)
    await store.tamper('DELETE FROM link', "UPDATE known SET state = '{}'")
    const changed = toyRoad({ version: 'toy 2' })
    await (await open(store, { road: changed })).close()
    await wantSound(store, changed)
  })
}
