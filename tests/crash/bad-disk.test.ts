import assert from 'node:assert/strict'
import { spawnSync } from 'node:child_process'
import { copyFileSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, test } from 'node:test'
import { backupStore } from '#journal/backup/backup.ts'
import type { Journal } from '#journal/journal.ts'
import { openJournal } from '#journal/open-journal.ts'
import { StoreTrouble, troubleOf } from '#journal/store-trouble.ts'
import { verify } from '#journal/verify/verify.ts'
import { makeSet, mark, minutes, site } from '../support/entries.ts'
import { runService } from '../support/running-service.ts'
import { seeded } from '../support/seeded.ts'
import { noSmallDisk, smallDisk } from '../support/small-disk.ts'
import { toyRoad } from '../support/toy-road.ts'
import { entryOf, openUnit } from '../service/hand.ts'

const road = toyRoad()
const now = () => minutes(60)
const skip = noSmallDisk()
const main = join(import.meta.dirname, '../../src/cli/main.ts')

const open = (file: string) => openJournal({ at: { kind: 'sqlite', file }, road, now })

/** Appends until it is refused; gives the ids that were acknowledged and the trouble. */
async function appendUntilTrouble(journal: Journal, from: number): Promise<{ kept: string[]; error: unknown }> {
  const kept: string[] = []
  for (let number = from; number < from + 20_000; number += 1) {
    try {
      const entry = mark(number, 'a', { at: minutes(number % 50), mark: 'x'.repeat(2000) })
      const outcome = await journal.append(entry)
      assert.equal(outcome.kind, 'kept')
      kept.push(entry.id)
    } catch (error) {
      return { kept, error }
    }
  }
  throw new Error('The disk was never full')
}

async function idsIn(journal: Journal): Promise<Set<string>> {
  const ids = new Set<string>()
  for (let afterSeq = 0; ; afterSeq += 1000) {
    const page = await journal.read(site).entries({ afterSeq, limit: 1000 })
    if (page.length === 0) return ids
    for (const { id } of page) ids.add(id)
  }
}

describe('a disk that is full', { skip }, () => {
  test('refuses with what to do, loses nothing that was acknowledged, and goes on when there is room', async (t) => {
    using disk = smallDisk(8)
    const file = join(disk.folder, 'unit.sqlite')
    const ballast = join(disk.folder, 'ballast')
    writeFileSync(ballast, Buffer.alloc(2 * 1024 * 1024))
    const acknowledged: string[] = []
    {
      await using journal = await open(file)
      assert.equal((await journal.append(makeSet(1, 'a'))).kind, 'kept')
      const { kept, error } = await appendUntilTrouble(journal, 2)
      acknowledged.push(...kept)
      const trouble = troubleOf(error)
      assert.ok(trouble instanceof StoreTrouble, String(error))
      t.diagnostic(`${kept.length} entries kept, then: ${trouble.message}`)
      assert.match(trouble.message, /disk of the record (is full|failed)/)
      // What is there can still be read, in the same program.
      const there = await idsIn(journal)
      assert.ok(acknowledged.every((id) => there.has(id)))
      rmSync(ballast)
      const more = await journal.append(mark(900_000, 'a', { at: minutes(3) }))
      assert.equal(more.kind, 'kept', 'there is room again')
      acknowledged.push(mark(900_000, 'a').id)
    }
    await using journal = await open(file)
    const there = await idsIn(journal)
    assert.deepEqual(
      acknowledged.filter((id) => !there.has(id)),
      [],
    )
    assert.equal((await verify({ at: { kind: 'sqlite', file }, road })).kind, 'sound')
  })

  test('makes no backup, leaves none half made, and says so', async () => {
    using disk = smallDisk(2)
    const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-full-'))
    const file = join(folder, 'unit.sqlite')
    {
      await using journal = await open(file)
      await journal.append(makeSet(1, 'a'))
      await journal.attach(Buffer.alloc(3 * 1024 * 1024, 'not small'), 'text/plain')
    }
    const backup = join(disk.folder, 'unit.backup')
    const made = backupStore({ at: { kind: 'sqlite', file }, road, now, file: backup })
    await assert.rejects(made, (error) => {
      assert.match(troubleOf(error)?.message ?? '', /disk of the record is full/)
      return true
    })
    assert.deepEqual(readdirSync(disk.folder), [])
    rmSync(folder, { recursive: true })
  })

  test('is told by the service as a problem with a remedy, and the entry can be sent again', async () => {
    using disk = smallDisk(8)
    await using service = await runService({ folder: disk.folder })
    await openUnit(service)
    const ballast = join(disk.folder, 'ballast')
    fill(ballast)
    const name = 'y'.repeat(80)
    const entries = Array.from({ length: 400 }, (_, index) =>
      entryOf('person-registered', '08:00', { person: `person:p${index}`, name, roles: ['theatre'] }),
    )
    let refusedAt = -1
    for (const [index, entry] of entries.entries()) {
      const answer = await service.ask('POST', '/api/entries', entry)
      if (answer.status === 201) continue
      refusedAt = index
      assert.equal(answer.status, 503, JSON.stringify(answer.body))
      assert.match(JSON.stringify(answer.body), /disk of the record (is full|failed)/)
      break
    }
    assert.ok(refusedAt >= 0, 'the disk was full')
    assert.equal((await service.ask('GET', '/api/known?kind=person')).status, 200, 'what is there can be read')
    rmSync(ballast)
    assert.equal((await service.ask('POST', '/api/entries', entries[refusedAt])).status, 201)
    assert.ok(service.log.some((line) => line.includes('disk of the record') && !line.includes('    at ')))
  })
})

/** Fills what is left of a disk. */
function fill(file: string): void {
  const pieces: Buffer[] = []
  for (;;) {
    try {
      writeFileSync(file, Buffer.concat(pieces))
      pieces.push(Buffer.alloc(64 * 1024))
    } catch {
      return
    }
  }
}

describe('a disk that is read-only', { skip }, () => {
  test('is one clear line from each command and the service, and the record is as it was', async () => {
    using disk = smallDisk(8)
    const file = join(disk.folder, 'unit.sqlite')
    {
      await using journal = await open(file)
      await journal.append(makeSet(1, 'a'))
    }
    const before = readFileSync(file)
    disk.makeReadOnly()
    for (const command of [['serve'], ['verify'], ['known', 'set'], ['export'], ['seal']]) {
      const { status, stderr } = run(command, file)
      assert.match(stderr, /^(?:\w+: )?The record cannot be (?:opened|written)[^\n]*\n$/, command.join(' '))
      assert.equal(status, 1)
    }
    assert.ok(readFileSync(file).equals(before))
  })
})

function run(command: readonly string[], file: string) {
  const environment = { ...process.env, NILGROWTH_DATA: file, PORT: '0' }
  return spawnSync(process.execPath, [main, ...command], { env: environment, encoding: 'utf8', timeout: 60_000 })
}

describe('a file that was damaged', () => {
  const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-damaged-'))
  process.on('exit', () => rmSync(folder, { recursive: true, force: true }))

  async function linesOf(file: string): Promise<string[]> {
    await using journal = await open(file)
    const lines: string[] = []
    for await (const line of journal.exportLines()) lines.push(line)
    return lines
  }

  /** What comes of it: `sound`, or what is said. A mistake of ours is no answer. */
  async function said(work: () => Promise<string>): Promise<string> {
    try {
      return await work()
    } catch (error) {
      const trouble = troubleOf(error)
      if (trouble === undefined) throw error
      return trouble.message
    }
  }

  test('wherever it is, it is found and said, or nothing of the record is other than it was', async (t) => {
    const whole = join(folder, 'whole.sqlite')
    {
      await using journal = await open(whole)
      await journal.append(makeSet(1, 'a'))
      const marks = Array.from({ length: 400 }, (_, index) => mark(index + 2, 'a', { at: minutes(index % 50) }))
      await journal.appendMany(marks)
      await journal.attach(Buffer.alloc(20_000, 'picture '), 'text/plain')
    }
    const lines = await linesOf(whole)
    const bytes = readFileSync(whole)
    const random = seeded(2640)
    const tally = { found: 0, harmless: 0 }
    for (let round = 0; round < 120; round += 1) {
      const copy = Buffer.from(bytes)
      const at = Math.floor(random() * copy.length)
      const length = 1 + Math.floor(random() * 64)
      for (let index = at; index < Math.min(copy.length, at + length); index += 1) {
        copy[index] = (copy[index] ?? 0) ^ (1 + Math.floor(random() * 255))
      }
      const file = join(folder, `damaged-${round}.sqlite`)
      writeFileSync(file, copy)
      const verified = await said(async () => {
        const result = await verify({ at: { kind: 'sqlite', file }, road })
        return result.kind === 'sound' ? 'sound' : result.fault.says
      })
      assert.doesNotMatch(verified, /\n\s+at /)
      if (verified === 'sound') {
        assert.deepEqual(await linesOf(file), lines, `round ${round}, byte ${at}: sound, and the same`)
        tally.harmless += 1
      } else {
        // To read what is damaged says what it is, too, or gives what can be read.
        await said(async () => String((await linesOf(file)).length))
        tally.found += 1
      }
      for (const part of ['', '-wal', '-shm']) rmSync(file + part, { force: true })
    }
    t.diagnostic(JSON.stringify(tally))
    assert.ok(tally.found > 60)
  })

  test('commands and the service say in one line what is wrong and what to do', async () => {
    const file = join(folder, 'unit.sqlite')
    copyFileSync(join(folder, 'whole.sqlite'), file)
    const bytes = readFileSync(file)
    // The page of the schema: nothing at all can be read.
    bytes.fill(0xa5, 100, 4096)
    writeFileSync(file, bytes)
    for (const command of [['verify'], ['serve'], ['export'], ['known', 'set']]) {
      const { status, stderr } = run(command, file)
      assert.match(
        stderr,
        /^(?:\w+: )?The record is damaged \([^\n]*restore the last backup[^\n]*\n$/,
        command.join(' '),
      )
      assert.equal(status, 1)
    }
    writeFileSync(file, 'this is no database at all, whatever its name may say it is')
    assert.match(run(['verify'], file).stderr, /^verify: The record is damaged \(file is not a database\)/)
    assert.ok(existsSync(file))
  })
})
