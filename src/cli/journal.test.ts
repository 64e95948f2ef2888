import assert from 'node:assert/strict'
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { DatabaseSync } from 'node:sqlite'
import { after, before, describe, test } from 'node:test'
import { openJournal } from '#journal/open-journal.ts'
import { SentEntry } from '#road/entry.ts'
import { instant } from '#road/instant.ts'
import { theRoad } from '#road/the-road.ts'
import { runBackup } from './backup.ts'
import { captured } from './captured.suite.ts'
import type { CommandIo } from './command.ts'
import { runExport } from './export.ts'
import { runImport } from './import.ts'
import { runRefold } from './refold.ts'
import { runSeal } from './seal.ts'
import { runRestore } from './restore.ts'
import { runVerify } from './verify.ts'

type Run = (args: string[], io: CommandIo) => Promise<number>

async function ran(run: Run, args: string[], ...input: string[]) {
  const { io, out, err } = captured(...input)
  const code = await run(args, io)
  return { code, out: out(), err: err() }
}

describe('commands on the journal', () => {
  const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-cli-'))
  const file = join(folder, 'unit.sqlite')
  const at = ['--data', file]
  const sound = /^sound: 1 entries of 1 sites, 1 subjects, 0 links, 0 attachments, \d seals\n$/
  before(async () => {
    await using journal = await openJournal({
      at: { kind: 'sqlite', file },
      road: theRoad,
      now: () => instant(Date.now()),
    })
    const entry = SentEntry.parse({
      id: '01a211e0-0000-7000-8000-000000000001',
      site: 'unit-a',
      kind: 'person-registered',
      happenedAt: '2026-11-25T09:00:00.000Z',
      by: 'person:nilgrowth',
      workstation: 'desk',
      body: { person: 'person:ann', name: 'Ann', roles: ['theatre'] },
    })
    assert.equal((await journal.append(entry)).kind, 'kept')
  })
  after(() => rmSync(folder, { recursive: true }))

  test('verify tells that a store is sound', async () => {
    const { code, out } = await ran(runVerify, at)
    assert.match(out, sound)
    assert.equal(code, 0)
  })

  test('verify ends with 1 and names the entry that was tampered with', async () => {
    const copy = join(folder, 'tampered.sqlite')
    await ran(runBackup, [copy, ...at])
    const database = new DatabaseSync(copy)
    database.exec(`DROP TRIGGER entry_is_never_updated; UPDATE entry SET text = replace(text, 'Ann', 'Eve')`)
    database.close()
    const { code, err } = await ran(runVerify, ['--data', copy])
    assert.match(err, /^NOT SOUND: entry 1 of site unit-a \(01a211e0-0000-7000-8000-000000000001\): its text gives/)
    assert.equal(code, 1)
  })

  test('seal prints a seal that verify holds the record against, with the key and without', async () => {
    const { code, out } = await ran(runSeal, at)
    assert.equal(code, 0)
    const printed = join(folder, 'seal.txt')
    writeFileSync(printed, out)
    const key = /^Public key: (.*)$/m.exec(out)?.[1]?.replaceAll(' ', '') ?? ''
    const held = await ran(runVerify, [...at, '--seal', printed, '--key', key])
    assert.match(held.out, /^sound: .*\nas sealed: seal of .* over entries 1 to 1 of site unit-a, key [0-9a-f]{16}\n$/)
    assert.equal(held.code, 0)
    const alone = await ran(runVerify, [...at, '--seal', printed])
    assert.ok(alone.out.includes(`it names the key ${key} itself: compare it with the one you keep`))
    const json = await ran(runSeal, [...at, '--json', '--site', 'unit-a'])
    assert.equal((JSON.parse(json.out) as { seq: number }).seq, 1)
    const other = await ran(runVerify, [...at, '--seal', printed, '--key', 'A'.repeat(43)])
    assert.match(other.err, /^NO PROOF: seal of .*: it was signed with the key /)
    assert.equal(other.code, 1)
  })

  test('a seal or a key that is none is told, and so is a site without an entry', async () => {
    const none = join(folder, 'none.txt')
    writeFileSync(none, 'hello')
    const read = await ran(runVerify, [...at, '--seal', none])
    assert.match(read.err, /^--seal: .*none.txt: wanted a seal as it was printed/)
    assert.equal(read.code, 2)
    assert.match((await ran(runVerify, [...at, '--seal', none, '--key', 'x'])).err, /^--(seal|key): wanted|^--seal/)
    assert.match((await ran(runVerify, [...at, '--key', 'x'])).err, /^--key: wanted with --seal FILE/)
    assert.match((await ran(runSeal, [...at, '--site', 'elsewhere'])).err, /^seal: the record holds no entry/)
  })

  test('a store that is not there is told and not made', async () => {
    const { code, err } = await ran(runVerify, ['--data', join(folder, 'none.sqlite')])
    assert.match(err, /^verify: No journal is kept at /)
    assert.equal(code, 1)
    assert.equal(existsSync(join(folder, 'none.sqlite')), false)
  })

  test('arguments that are not understood are told with the usage', async () => {
    for (const args of [['--colour'], ['extra'], ['--replace'], ['--site', 'Ä']]) {
      const { code, err } = await ran(runVerify, [...at, ...args])
      assert.match(
        err,
        /Usage: nilgrowth verify \[--data FILE \| --database URL\] \[--site SITE\] \[--seal FILE\] \[--key PUBLIC-KEY\]/,
      )
      assert.equal(code, 2)
    }
    assert.equal((await ran(runBackup, at)).code, 2)
  })

  test('backup and restore go round, and a store that holds entries is only kept aside', async () => {
    const backup = join(folder, 'unit.backup')
    const fresh = join(folder, 'fresh.sqlite')
    const made = await ran(runBackup, [backup, ...at])
    assert.match(made.out, /unit\.backup: sound: 1 entries/)
    const restored = await ran(runRestore, [backup, '--data', fresh])
    assert.equal(restored.out, 'restored 1 entries and 0 attachments\n')
    const again = await ran(runRestore, [backup, '--data', fresh])
    assert.match(again.err, /^not restored: the store holds entries/)
    const replaced = await ran(runRestore, [backup, '--data', fresh, '--replace'])
    assert.match(replaced.out, /what was there is kept as .*fresh\.sqlite\.replaced-/)
    assert.deepEqual([made.code, restored.code, again.code, replaced.code], [0, 0, 1, 0])
    assert.match((await ran(runVerify, ['--data', fresh])).out, sound)
  })

  test('a store that another program has open is not moved aside', async () => {
    const backup = join(folder, 'other.backup')
    await ran(runBackup, [backup, ...at])
    await using busy = await openJournal({
      at: { kind: 'sqlite', file },
      road: theRoad,
      now: () => instant(Date.now()),
    })
    assert.equal((await busy.sites()).length, 1)
    const { code, err } = await ran(runRestore, [backup, '--replace', ...at])
    assert.match(err, /another process has it open: stop the program/)
    assert.equal(code, 1)
    assert.equal((await busy.sites()).length, 1)
  })

  test('export and import go round, by file and by stream', async () => {
    const lines = join(folder, 'unit.ndjson')
    assert.equal((await ran(runExport, [lines, ...at])).code, 0)
    const { out } = await ran(runExport, at)
    assert.equal(out, readFileSync(lines, 'utf8'))
    const byFile = await ran(runImport, [lines, '--data', join(folder, 'by-file.sqlite')])
    assert.equal(byFile.out, 'imported 1 entries and 0 attachments; 0 entries were here already\n')
    const byStream = ['--data', join(folder, 'by-stream.sqlite')]
    assert.equal((await ran(runImport, byStream, out.slice(0, 70), out.slice(70))).out, byFile.out)
    assert.equal((await ran(runExport, byStream)).out, out)
    const bad = await ran(runImport, byStream, 'no lines of ours\n')
    assert.deepEqual([bad.code, bad.err], [1, 'nothing was imported: line 1: wanted a line of JSON\n'])
    assert.equal((await ran(runExport, [lines, ...at])).code, 1)
  })

  test('refold makes what is derived anew', async () => {
    assert.equal((await ran(runRefold, at)).out, 'refolded 1 entries\n')
    assert.match((await ran(runVerify, at)).out, sound)
  })
})
