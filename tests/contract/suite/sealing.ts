import assert from 'node:assert/strict'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join as path } from 'node:path'
import { describe, test } from 'node:test'
import { assert as assertProperty, asyncProperty, boolean, constantFrom, integer, nat } from 'fast-check'
import { entryOfText, sealEntry } from '#journal/chain.ts'
import { backupStore } from '#journal/backup/backup.ts'
import { openEngine } from '#journal/open-journal.ts'
import { restoreStore } from '#journal/restore.ts'
import { sealKey } from '#journal/seal/seal-key.ts'
import type { Seal, SealKey } from '#journal/seal/seal.ts'
import { verifySeal } from '#journal/seal/verify-seal.ts'
import { verify } from '#journal/verify/verify.ts'
import type { KeptEntry } from '#road/entry.ts'
import { makeSet, mark, minutes, sent, site } from '../../support/entries.ts'
import type { EngineUnderTest, StoreUnderTest } from '../../support/store-under-test.ts'
import { toyRoad } from '../../support/toy-road.ts'
import { keepAll, open, standingClock } from './opened.ts'

const road = toyRoad()
const folder = mkdtempSync(path(tmpdir(), 'nilgrowth-sealing-'))
process.on('exit', () => rmSync(folder, { recursive: true, force: true }))
const key: SealKey = sealKey(path(folder, 'key'))

/** A history of so many entries with a seal over the first of them. */
async function sealedHistory(store: StoreUnderTest, { sealed, later }: { sealed: number; later: number }) {
  await using journal = await open(store)
  const all = [
    makeSet(1, 'a'),
    ...Array.from({ length: sealed + later - 1 }, (_, index) => mark(index + 2, 'a', { at: minutes(index % 50) })),
  ]
  await keepAll(journal, all.slice(0, sealed))
  const seal = await journal.seal(site, key)
  await keepAll(journal, all.slice(sealed))
  assert.ok(seal !== undefined)
  return seal
}

async function chainOf({ at }: StoreUnderTest): Promise<KeptEntry[]> {
  const engine = await openEngine(at, 'asItIs')
  try {
    const rows = await engine.reading.selectFrom('entry').select(['text', 'hash']).orderBy('seq').execute()
    return rows.map(entryOfText)
  } finally {
    await engine.close()
  }
}

type ChangeKind = 'altered' | 'removed' | 'inserted'

/** The chain with one change, each later entry moved to its new place; hashes only made anew where `forged`. */
function changed(
  chain: readonly KeptEntry[],
  { kind, seq, forged }: { kind: ChangeKind; seq: number; forged: boolean },
) {
  const body = { set: 'set:a', mark: 'never said' }
  const at = chain[seq - 1]
  assert.ok(at !== undefined)
  const extra: KeptEntry = { ...at, ...sent({ number: 999_999, kind: 'set-marked', body, at: minutes(1) }) }
  const list = {
    altered: chain.with(seq - 1, { ...at, workstation: 'elsewhere' }),
    removed: chain.toSpliced(seq - 1, 1),
    inserted: chain.toSpliced(seq - 1, 0, extra),
  }[kind]
  let previousHash = '0'.repeat(64)
  return list.map(({ hash, text: _text, ...entry }: KeptEntry & { text?: string }, index) => {
    // Without forging, only the entry touched gets a hash that fits its text; a gap or a repeat stays to be seen.
    const touched = kind !== 'removed' && index === seq - 1
    const moved = forged
      ? { ...entry, seq: index + 1, previousHash }
      : { ...entry, seq: kind === 'removed' ? entry.seq : index + 1 }
    const link = sealEntry(moved)
    previousHash = link.hash
    const kept = forged || touched ? link : { text: link.text, hash: kind === 'altered' ? hash : link.hash }
    return { ...moved, ...kept }
  })
}

const quoted = (text: string) => `'${text.replaceAll("'", "''")}'`

async function replaceChain(store: StoreUnderTest, chain: ReturnType<typeof changed>): Promise<void> {
  await store.dropGuards()
  const rows = chain.map(({ seq, id, kind, happenedAt, recordedAt, text, hash }) =>
    [quoted(site), seq, ...[id, kind, happenedAt, recordedAt].map(quoted), 'NULL', quoted(text), quoted(hash)].join(
      ', ',
    ),
  )
  await store.tamper('DELETE FROM entry', ...rows.map((row) => `INSERT INTO entry VALUES (${row})`))
}

async function dropSeals(store: StoreUnderTest): Promise<void> {
  const triggers =
    store.at.kind === 'sqlite' ? ['DROP TRIGGER seal_is_never_deleted'] : ['DROP TRIGGER seal_is_append_only ON seal']
  await store.tamper(...triggers, 'DELETE FROM seal')
}

export function sealing(engine: EngineUnderTest): void {
  describe('seals', () => {
    test('a record as it was sealed holds, also when it has gone on, on any key that is the right one', async () => {
      await using store = await engine.newStore()
      const seal = await sealedHistory(store, { sealed: 5, later: 4 })
      assert.equal(seal.seq, 5)
      assert.deepEqual(await verifySeal(store.at, seal), { kind: 'holds' })
      assert.deepEqual(await verifySeal(store.at, seal, key.publicKey), { kind: 'holds' })
      const other = sealKey(path(folder, 'other'))
      const check = await verifySeal(store.at, seal, other.publicKey)
      assert.ok(check.kind === 'noProof')
      assert.match(check.says, /signed with the key [0-9a-f]{16}, but the key given is [0-9a-f]{16}/)
      const lied: Seal = { ...seal, seq: 4 }
      assert.equal((await verifySeal(store.at, lied)).kind, 'noProof')
      const result = await verify({ at: store.at, road })
      assert.ok(result.kind === 'sound')
      assert.equal(result.seals, 1)
    })

    test('any one entry altered, removed or inserted is found and located, with and without the chain made anew', async (t) => {
      const tried = { altered: 0, removed: 0, inserted: 0 }
      const anyChange = asyncProperty(
        constantFrom<ChangeKind>('altered', 'removed', 'inserted'),
        boolean(),
        integer({ min: 1, max: 12 }),
        integer({ min: 0, max: 3 }),
        nat(),
        async (kind, forged, sealed, later, where) => {
          await using store = await engine.newStore()
          const seal = await sealedHistory(store, { sealed, later })
          const seq = (where % sealed) + 1
          // The last of all removed leaves no chain to look at, only a shorter one.
          await replaceChain(store, changed(await chainOf(store), { kind, seq, forged }))
          const check = await verifySeal(store.at, seal, key.publicKey)
          assert.ok(check.kind === 'broken', `${kind} ${seq} of ${sealed}: ${JSON.stringify(check)}`)
          const last = seq === sealed && kind !== 'inserted' && (kind === 'altered' || later > 0)
          assert.deepEqual(check.change, { change: last ? 'alteredOrRemoved' : kind, seq }, check.says)
          tried[kind] += 1
        },
      )
      await assertProperty(anyChange, {
        numRuns: engine.name === 'sqlite' ? 60 : 40,
        seed: 20_261_130,
        endOnFailure: true,
      })
      t.diagnostic(JSON.stringify(tried))
      assert.ok(Object.values(tried).every((count) => count >= 5))
    })

    test('a whole chain made anew is sound in itself, and only a seal finds it', async () => {
      await using store = await engine.newStore()
      const seal = await sealedHistory(store, { sealed: 8, later: 3 })
      await replaceChain(store, changed(await chainOf(store), { kind: 'altered', seq: 3, forged: true }))
      {
        await using journal = await open(store)
        await journal.refold()
        // The seal kept beside the record finds it too, and no new one is put over it.
        await assert.rejects(journal.seal(site, key), /Not sealed: the seal of .* over entries 1 to 8 .* does not hold/)
      }
      const beside = await verify({ at: store.at, road })
      assert.ok(beside.kind === 'faulty')
      assert.match(beside.fault.says, /entry 3 was altered; the chain was made anew to hide it/)
      await dropSeals(store)
      assert.equal((await verify({ at: store.at, road })).kind, 'sound', 'the forger took the seals away as well')
      const check = await verifySeal(store.at, seal, key.publicKey)
      assert.ok(check.kind === 'broken')
      assert.equal(check.says, 'entry 3 was altered; the chain was made anew to hide it')
    })

    test('of two entries altered the range is told, bounded by the last seal that still holds', async () => {
      await using store = await engine.newStore()
      await sealedHistory(store, { sealed: 4, later: 4 })
      const seal = await (async () => {
        await using journal = await open(store, { now: () => minutes(61) })
        return await journal.seal(site, key)
      })()
      assert.ok(seal !== undefined)
      const once = changed(await chainOf(store), { kind: 'altered', seq: 6, forged: true })
      await replaceChain(store, changed(once, { kind: 'altered', seq: 8, forged: true }))
      const check = await verifySeal(store.at, seal, key.publicKey)
      assert.ok(check.kind === 'broken')
      assert.equal(check.change, undefined)
      assert.match(
        check.says,
        /^more than one of entries 5 to 8 was .*; the seal of .* over entries 1 to 4 still holds/,
      )
    })

    test('a record cut off at its end is told with how much is left', async () => {
      await using store = await engine.newStore()
      const seal = await sealedHistory(store, { sealed: 6, later: 0 })
      await replaceChain(
        store,
        (await chainOf(store)).slice(0, 3).map((entry) => ({ ...entry, ...linkOf(entry) })),
      )
      const check = await verifySeal(store.at, seal)
      assert.ok(check.kind === 'broken')
      assert.match(check.says, /the record has 3 of the 6 entries/)
    })

    test('a seal goes on from the seal before, and equals one made at once', async () => {
      await using store = await engine.newStore()
      await using copy = await engine.newStore()
      await sealedHistory(store, { sealed: 5, later: 3 })
      await using journal = await open(store)
      const second = await journal.seal(site, key)
      await using other = await open(copy)
      await other.importLines(
        (async function* () {
          for await (const line of journal.exportLines()) if (!line.startsWith('{"seal"')) yield line
        })(),
      )
      const whole = await other.seal(site, key)
      assert.deepEqual(whole, second)
      assert.equal((await journal.seals(site, 10)).length, 2)
    })

    test('seals go with a backup, and are neither changed nor taken away in the database', async () => {
      await using store = await engine.newStore()
      await using empty = await engine.newStore()
      const seal = await sealedHistory(store, { sealed: 3, later: 1 })
      const { now } = standingClock()
      const file = path(mkdtempSync(path(folder, 'backup-')), 'unit.backup')
      assert.equal((await backupStore({ at: store.at, road, now, file })).kind, 'sound')
      assert.equal((await restoreStore({ at: empty.at, road, now, file, replace: false })).kind, 'restored')
      {
        await using journal = await open(empty)
        assert.deepEqual(await journal.seals(site, 10), [seal])
      }
      for (const statement of ['DELETE FROM seal', "UPDATE seal SET text = ''"]) {
        await assert.rejects(store.tamper(statement), /only added|append only/)
      }
    })

    test('an empty record has nothing to seal', async () => {
      await using store = await engine.newStore()
      await using journal = await open(store)
      assert.equal(await journal.seal(site, key), undefined)
    })
  })
}

function linkOf({ hash: _hash, ...entry }: KeptEntry) {
  return sealEntry(entry)
}
