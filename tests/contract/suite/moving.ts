import assert from 'node:assert/strict'
import { existsSync } from 'node:fs'
import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { dirname, join as path } from 'node:path'
import { describe, test } from 'node:test'
import { backupStore } from '#journal/backup/backup.ts'
import { hashOfText } from '#journal/chain.ts'
import { encryptedAbout } from '#journal/encrypted/encrypted-file.ts'
import { keyFileOf, makeKeyFile } from '#journal/encrypted/secret.ts'
import { EntryLine } from '#journal/export-format.ts'
import type { Journal } from '#journal/journal.ts'
import type { ImportOutcome } from '#journal/outcome.ts'
import { restoreStore } from '#journal/restore.ts'
import type { Signature } from '#road/people/signature.ts'
import { makeSet, mark, minutes, otherSite, sent, site, withdraw } from '../../support/entries.ts'
import { type EngineUnderTest, sqliteUnderTest } from '../../support/store-under-test.ts'
import { toyRoad } from '../../support/toy-road.ts'
import { keepAll, kept, marksOf, open, standingClock, wantSound } from './opened.ts'

const story = [
  makeSet(1, 'a'),
  makeSet(2, 'b', { site: otherSite }),
  mark(3, 'a', { mark: 'zwölf µm \u0000 "quoted" \u2028', at: minutes(1) }),
  mark(4, 'a', { at: minutes(2) }),
  withdraw(5, 4, { at: minutes(3) }),
]

const signature: Signature = { person: 'person:mira', as: 'author', how: 'passphrase', at: minutes(1) }

/** The story, with one entry that was signed and one that nobody signed. */
async function fill(journal: Journal): Promise<string[]> {
  const signed = new Map(story.slice(0, 1).map(({ id }) => [id, [signature, { ...signature, as: 'second' as const }]]))
  for (const outcome of await journal.appendMany(story, signed)) kept(outcome)
  await journal.attach(new Uint8Array(5000).fill(7), 'application/octet-stream')
  return await linesOf(journal)
}

async function linesOf(journal: Journal): Promise<string[]> {
  const lines: string[] = []
  for await (const line of journal.exportLines()) lines.push(line)
  return lines
}

async function* streamOf(lines: readonly string[]): AsyncIterable<string> {
  yield* lines
}

/** The entry of a line with another entry named before it, and the hash that goes with that. */
function forged(line: string): string {
  const { text } = EntryLine.parse(JSON.parse(line))
  const other = text.replace(/"previousHash":"[0-9a-f]{8}/, '"previousHash":"00000000')
  return JSON.stringify({ text: other, hash: hashOfText(other) })
}

async function leftBeside(file: string): Promise<string[]> {
  const names = await readdir(dirname(file))
  return names.filter((name) => !name.startsWith('unit.sqlite'))
}

export function moving(engine: EngineUnderTest): void {
  describe('export and import', () => {
    test('a note outlives a restart, can be taken back, and is in no export', async () => {
      await using store = await engine.newStore()
      {
        await using journal = await open(store)
        const lines = await fill(journal)
        await journal.notes.write('half done', 'one')
        await journal.notes.write('half done', 'two')
        assert.deepEqual(await linesOf(journal), lines)
      }
      await using journal = await open(store)
      assert.equal(await journal.notes.read('half done'), 'two')
      await journal.notes.clear('half done')
      assert.equal(await journal.notes.read('half done'), undefined)
      await wantSound(store)
    })

    test('a round trip over both engines keeps every text and hash', async () => {
      await using from = await engine.newStore()
      await using between = await sqliteUnderTest.newStore()
      await using to = await engine.newStore()
      await using first = await open(from)
      await using second = await open(between)
      await using third = await open(to)
      const lines = await fill(first)
      assert.equal(lines.length, 1 + 1 + story.length)
      const counts = { kind: 'imported', entries: story.length, alreadyKept: 0, attachments: 1 }
      assert.deepEqual(await second.importLines(streamOf(lines)), counts)
      assert.deepEqual(await linesOf(second), lines)
      assert.deepEqual(await third.importLines(second.exportLines()), counts)
      assert.deepEqual(await linesOf(third), lines)
      assert.deepEqual(await marksOf(third, 'a'), await marksOf(first, 'a'))
      await wantSound(to)
    })

    test('importing again changes nothing, and a longer export goes on where the store ends', async () => {
      await using from = await engine.newStore()
      await using to = await engine.newStore()
      await using source = await open(from)
      await using target = await open(to)
      const lines = await fill(source)
      await target.importLines(streamOf(lines))
      const again = await target.importLines(streamOf(lines))
      assert.deepEqual(again, { kind: 'imported', entries: 0, alreadyKept: story.length, attachments: 0 })
      await keepAll(source, [mark(6, 'a', { at: minutes(6) })])
      const longer = await target.importLines(source.exportLines())
      assert.deepEqual(longer, { kind: 'imported', entries: 1, alreadyKept: story.length, attachments: 0 })
      kept(await target.append(mark(7, 'a', { at: minutes(7) })))
      await wantSound(to)
    })

    const refuses = (name: string, change: (lines: string[]) => readonly string[], says: RegExp): void => {
      test(`refused, and nothing written: ${name}`, async () => {
        await using from = await engine.newStore()
        await using to = await engine.newStore()
        await using source = await open(from)
        await using target = await open(to)
        const lines = await fill(source)
        const outcome: ImportOutcome = await target.importLines(streamOf(change(lines)))
        assert.ok(outcome.kind === 'notImported')
        assert.match(outcome.says, says)
        assert.deepEqual((await linesOf(target)).length, 1)
      })
    }

    refuses('a file that is empty', () => [], /current file is empty/)
    refuses('a file of another form', () => ['{"hello":1}'], /wanted the header/)
    refuses('a line that is no JSON', (lines) => [...lines.slice(0, 3), '{'], /wanted a line of JSON/)
    refuses('a line of another form', (lines) => [...lines, '{"text":1}'], /wanted an entry/)
    refuses('an altered entry', (lines) => lines.map((line) => line.replace('zwölf', 'elf')), /its text gives the hash/)
    refuses('a missing entry', (lines) => lines.toSpliced(3, 1), /wanted entry 2 of site unit-a, current entry is 3/)
    refuses(
      'an entry that does not follow',
      (lines) => lines.map((line, index) => (index === 3 ? forged(line) : line)),
      /entry 2 of site unit-a does not follow the entry before it/,
    )
    refuses(
      'an altered attachment',
      (lines) => lines.map((line) => line.replace('BwcH', 'CwcH')),
      /bytes whose digest is/,
    )

    test('a fork is refused with the entry at which the two part', async () => {
      await using from = await engine.newStore()
      await using to = await engine.newStore()
      await using source = await open(from)
      await using target = await open(to)
      await keepAll(source, [makeSet(1, 'a'), mark(2, 'a'), mark(3, 'a')])
      await keepAll(target, [makeSet(1, 'a'), mark(2, 'a'), mark(9, 'a')])
      const before = await linesOf(target)
      const outcome = await target.importLines(source.exportLines())
      assert.ok(outcome.kind === 'notImported')
      assert.match(outcome.says, /part at entry 3 of site unit-a/)
      assert.deepEqual(await linesOf(target), before)
    })

    test('an entry whose id another site has used is refused', async () => {
      await using from = await engine.newStore()
      await using to = await engine.newStore()
      await using source = await open(from)
      await using target = await open(to)
      await keepAll(source, [makeSet(1, 'a', { site: otherSite })])
      await keepAll(target, [makeSet(1, 'a')])
      const outcome = await target.importLines(source.exportLines())
      assert.ok(outcome.kind === 'notImported')
      assert.match(outcome.says, /^entry 1 has the id .* of entry 1 at site unit-a$/)
    })

    test('an entry of a kind from a newer version is kept, counted and passed on, and refused when it is sent', async () => {
      await using from = await engine.newStore()
      await using to = await engine.newStore()
      const newer = toyRoad({ version: 'toy 2', newer: true })
      await using source = await open(from, { road: newer })
      const polish = sent({ number: 3, kind: 'set-polished', body: { set: 'set:a', mark: 'bright' }, at: minutes(2) })
      await keepAll(source, [
        makeSet(1, 'a'),
        mark(2, 'a', { at: minutes(1) }),
        polish,
        mark(4, 'a', { at: minutes(3) }),
      ])
      const lines = await linesOf(source)
      {
        await using target = await open(to)
        await target.importLines(streamOf(lines))
        assert.deepEqual(await marksOf(target, 'a'), ['m2', 'm4'])
        assert.equal((await target.read(site).head())?.seq, 4)
        assert.deepEqual(await linesOf(target), lines)
        assert.equal((await target.append({ ...polish, id: makeSet(8, 'x').id })).kind, 'unusable')
        kept(await target.append(mark(5, 'a', { at: minutes(4) })))
      }
      await wantSound(to)
      // When the newer version comes here, it reads what was kept for it.
      await using upgraded = await open(to, { road: newer })
      assert.deepEqual(await marksOf(upgraded, 'a'), ['m2', 'bright', 'm4', 'm5'])
    })
  })

  describe('backup and restore', () => {
    const road = toyRoad()
    const { now } = standingClock()

    test('a backup of a running store is sound, and restores to the same entries', async () => {
      const folder = await mkdtemp(path(tmpdir(), 'nilgrowth-backup-'))
      await using store = await engine.newStore()
      await using empty = await engine.newStore('bare')
      const file = path(folder, 'unit.backup')
      await using journal = await open(store)
      const lines = await fill(journal)
      const identities = journal.identities(site)
      const looked = { at: minutes(2), person: null, act: 'kept', why: 'care' } as const
      for (const [id, of] of [
        ['019dcd63-0000-7000-8000-000000000001', 'case:a'],
        ['019dcd63-0000-7000-8000-000000000002', 'case:b'],
      ] as const)
        await identities.keep({ ...looked, id, case: of }, () => Buffer.from('as if encrypted'))
      const erased = { ...looked, id: '019dcd63-0000-7000-8000-000000000003', act: 'erased', case: 'case:b' } as const
      assert.equal(await identities.erase('case:b', erased), true)
      assert.equal(await identities.erase('case:b', erased), false, 'an erased one is not erased again')
      assert.deepEqual(await linesOf(journal), lines, 'an export does not hold who the patients are')
      const busy = keepAll(
        journal,
        Array.from({ length: 300 }, (_, index) => makeSet(1000 + index, `busy${index}`)),
      )
      const result = await backupStore({ at: store.at, road, now, file })
      await busy
      assert.equal(result.kind, 'sound')
      await assert.rejects(backupStore({ at: store.at, road, now, file }), /exists already/)

      const restored = await restoreStore({ at: empty.at, road, now, file, replace: false })
      assert.ok(restored.kind === 'restored')
      {
        await using copy = await open(empty)
        assert.deepEqual((await linesOf(copy)).slice(0, 2), lines.slice(0, 2))
        assert.equal((await copy.read(site).entry(makeSet(1, 'a').id))?.seq, 1)
        const after = copy.identities(site)
        assert.deepEqual(
          [await after.state('case:a'), await after.state('case:b'), await after.state('case:c')],
          [{ is: 'kept', keptAt: minutes(2) }, { is: 'erased', keptAt: minutes(2) }, undefined],
        )
        assert.deepEqual(await after.accesses({ limit: 9 }), await identities.accesses({ limit: 9 }))
        const seen = await after.see('case:a', {
          ...looked,
          id: '019dcd63-0000-7000-8000-000000000004',
          case: 'case:a',
        })
        assert.equal(Buffer.from(seen?.sealed ?? []).toString(), 'as if encrypted')
        assert.equal((await after.accesses({ case: 'case:a', limit: 9 })).length, 2)
      }
      await wantSound(empty)
      await rm(folder, { recursive: true })
    })

    test('an encrypted backup restores to the same entries with its key, and to nothing without', async () => {
      const folder = await mkdtemp(path(tmpdir(), 'nilgrowth-backup-'))
      await using store = await engine.newStore()
      await using empty = await engine.newStore('bare')
      const [file, keyFile, otherFile] = ['unit.backup', 'key', 'other'].map((name) => path(folder, name)) as [
        string,
        string,
        string,
      ]
      makeKeyFile(keyFile)
      makeKeyFile(otherFile)
      const lines = await (async () => {
        await using journal = await open(store)
        return await fill(journal)
      })()
      const secret = keyFileOf(keyFile)
      assert.equal((await backupStore({ at: store.at, road, now, file, secret })).kind, 'sound')
      const bytes = await readFile(file)
      assert.equal(bytes.includes('set:a'), false, 'nothing of the record stands in the clear')
      assert.deepEqual(
        encryptedAbout(file).heads.map(({ site, seq }) => [site, seq]),
        [
          [site, 4],
          [otherSite, 1],
        ],
      )
      const job = { at: empty.at, road, now, file, replace: false }
      await assert.rejects(restoreStore(job), /is encrypted: name its key with --key-file or --passphrase-file/)
      await assert.rejects(restoreStore({ ...job, secret: keyFileOf(otherFile) }), /the key is not the one/)
      await writeFile(`${file}.cut`, bytes.subarray(0, -20))
      await assert.rejects(restoreStore({ ...job, file: `${file}.cut`, secret }), /cannot be read/)
      const restored = await restoreStore({ ...job, secret })
      assert.ok(restored.kind === 'restored')
      {
        await using copy = await open(empty)
        assert.deepEqual(await linesOf(copy), lines)
      }
      await wantSound(empty)
      // Neither the copy in the clear nor the rehearsal is left anywhere.
      assert.deepEqual((await readdir(folder)).sort(), ['key', 'other', 'unit.backup', 'unit.backup.cut'])
      for (const { at } of [store, empty]) {
        if (at.kind === 'sqlite') assert.deepEqual(await leftBeside(at.file), [])
      }
      await rm(folder, { recursive: true })
    })

    test('of a store that is not sound no backup is made', async () => {
      const folder = await mkdtemp(path(tmpdir(), 'nilgrowth-backup-'))
      await using store = await engine.newStore()
      {
        await using journal = await open(store)
        await fill(journal)
      }
      await store.dropGuards()
      await store.tamper("UPDATE entry SET text = replace(text, 'm4', 'm5')")
      const file = path(folder, 'unit.backup')
      const made = backupStore({ at: store.at, road, now, file }).then(({ kind }) => kind)
      if (engine.name === 'sqlite') assert.equal(await made, 'faulty')
      else await assert.rejects(made, /No backup was made, as it could not be restored: .* its text gives the hash/)
      assert.deepEqual(await readdir(folder), [])
      await rm(folder, { recursive: true })
    })

    test('a restore never overwrites: it refuses, or keeps aside what was there', async () => {
      const folder = await mkdtemp(path(tmpdir(), 'nilgrowth-backup-'))
      await using from = await engine.newStore()
      await using store = await engine.newStore()
      const file = path(folder, 'unit.backup')
      const source = await open(from)
      const lines = await fill(source)
      await source.close()
      await backupStore({ at: from.at, road, now, file })
      const target = await open(store)
      await keepAll(target, [makeSet(70, 'precious')])
      await target.close()

      assert.deepEqual(await restoreStore({ at: store.at, road, now, file, replace: false }), { kind: 'notEmpty' })
      const restored = await restoreStore({ at: store.at, road, now, file, replace: true })
      assert.ok(restored.kind === 'restored' && restored.aside !== undefined)
      {
        await using copy = await open(store)
        assert.deepEqual(await linesOf(copy), lines)
      }
      const { aside } = restored
      await using old = await open({
        ...store,
        at: store.at.kind === 'sqlite' ? { kind: 'sqlite', file: aside } : { ...store.at, schema: aside },
      })
      assert.deepEqual(await marksOf(old, 'precious'), [])
      if (store.at.kind === 'postgres') await store.tamper(`ALTER SCHEMA ${aside} RENAME TO ${aside}_seen`)
      await rm(folder, { recursive: true })
    })

    test('a damaged backup restores nothing', async () => {
      const folder = await mkdtemp(path(tmpdir(), 'nilgrowth-backup-'))
      await using from = await engine.newStore()
      await using store = await engine.newStore()
      await using source = await open(from)
      const lines = await fill(source)
      const file = path(folder, 'unit.ndjson')
      await writeFile(file, lines.join('\n').replace('m4', 'm5'))
      const outcome = await restoreStore({ at: store.at, road, now, file, replace: true })
      assert.equal(outcome.kind, 'notImported')
      if (store.at.kind === 'sqlite') assert.equal(existsSync(`${store.at.file}.restoring`), false)
      await using target = await open(store)
      assert.deepEqual(await target.sites(), [])
      await rm(folder, { recursive: true })
      assert.equal(existsSync(folder), false)
    })
  })
}
