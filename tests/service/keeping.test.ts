import assert from 'node:assert/strict'
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { DatabaseSync } from 'node:sqlite'
import { describe, test } from 'node:test'
import { setTimeout as wait } from 'node:timers/promises'
import { openJournal } from '#journal/open-journal.ts'
import { restoreStore } from '#journal/restore.ts'
import { keyFileOf } from '#journal/encrypted/secret.ts'
import { instant } from '#road/instant.ts'
import { theRoad } from '#road/the-road.ts'
import type { BackupsAnswer, SealCheckAnswer, SealsAnswer, ShownSeal } from '#service/api-types.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { postgresService, sqliteService } from '../support/service-engines.ts'
import { openUnit, present } from './hand.ts'

const now = () => instant(Date.parse(present))

async function backupsWhenDone(service: RunningService): Promise<BackupsAnswer> {
  for (let asked = 0; asked < 600; asked += 1) {
    const { body } = await service.ask('GET', '/api/backups')
    const answer = body as BackupsAnswer
    if (!answer.running && answer.last !== null) return answer
    await wait(50)
  }
  throw new Error('The backup did not come to an end')
}

describe('seals by HTTP', () => {
  test('given an entry, then a seal is made, listed, and held against the record', async () => {
    await using service = await runService()
    assert.equal((await service.ask('POST', '/api/seals')).status, 409, 'nothing to seal yet')
    await openUnit(service)
    const made = await service.ask('POST', '/api/seals')
    assert.equal(made.status, 201)
    const { seal, text } = made.body as ShownSeal
    assert.match(text, /^Seal of a nilgrowth record\n/)
    const { seals, failure } = (await service.ask('GET', '/api/seals')).body as SealsAnswer
    assert.equal(failure, null)
    assert.deepEqual(seals[0]?.seal, seal)
    const check = await service.ask('POST', '/api/seals/check', seal)
    assert.deepEqual(check.body, { outcome: 'holds', says: null })
    const lied = await service.ask('POST', '/api/seals/check', { ...seal, seq: 1 })
    assert.equal((lied.body as SealCheckAnswer).outcome, seal.seq === 1 ? 'holds' : 'noProof')
    assert.equal((await service.ask('POST', '/api/seals/check', { seal: 1 })).status, 422)
  })

  test('the service seals by itself when it opens on a record of yesterday, and once a day', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-daily-'))
    const day = 86_400_000
    const open = (days: number) => runService({ folder, now: () => instant(Date.parse(present) + days * day) })
    {
      await using service = await open(0)
      await openUnit(service)
    }
    const counts: number[] = []
    for (const days of [1, 1, 2]) {
      await using service = await open(days)
      // The seal is made as the service opens; the log tells when.
      for (let asked = 0; asked < 20; asked += 1) await wait(10)
      counts.push(((await service.ask('GET', '/api/seals')).body as SealsAnswer).seals.length)
    }
    // Nothing new was recorded by the second day, so its seal would say the same.
    assert.deepEqual(counts, [1, 1, 1])
    rmSync(folder, { recursive: true })
  })

  test('an altered record is not sealed again: the failure is told', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-altered-'))
    {
      await using service = await runService({ folder, now })
      await openUnit(service)
      assert.equal((await service.ask('POST', '/api/seals')).status, 201)
    }
    const database = new DatabaseSync(join(folder, 'unit.sqlite'))
    database.exec("DROP TRIGGER entry_is_never_updated; UPDATE entry SET hash = replace(hash, 'a', 'b')")
    database.close()
    await using service = await runService({ folder, now })
    assert.equal((await service.ask('POST', '/api/seals')).status, 409)
    rmSync(folder, { recursive: true })
  })
})

for (const engineOf of [
  async () => Object.assign(sqliteService, { [Symbol.asyncDispose]: async () => {} }),
  postgresService,
]) {
  test(`a backup made by the service restores with its key to the same record: ${engineOf === postgresService ? 'postgres' : 'sqlite'}`, async () => {
    await using engine = await engineOf()
    const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-backups-'))
    const keyFile = join(folder, 'key')
    await using service = await runService({
      environment: {
        ...(await engine.newRecord()),
        NILGROWTH_BACKUP_FOLDER: join(folder, 'kept'),
        NILGROWTH_BACKUP_KEY_FILE: keyFile,
        NILGROWTH_SEAL_KEY_FILE: join(folder, 'seal-key'),
      },
    })
    await openUnit(service)
    const begun = await service.ask('POST', '/api/backups')
    assert.equal(begun.status, 202)
    const { last, backups, overdue } = await backupsWhenDone(service)
    assert.ok(last?.good, last?.says)
    assert.match(last.says, /restored and compared$/)
    assert.equal(overdue, false)
    const [backup] = backups
    assert.ok(backup !== undefined)
    assert.ok(service.log.some((line) => line.includes('Keep a copy of it away from this computer')))
    // The rehearsal of a restore on a new machine: the file and the key are all there is.
    const at = { kind: 'sqlite', file: join(folder, 'new', 'unit.sqlite') } as const
    const file = join(folder, 'kept', backup.name)
    const restored = await restoreStore({ at, road: theRoad, now, file, replace: false, secret: keyFileOf(keyFile) })
    assert.equal(restored.kind, 'restored')
    await using journal = await openJournal({ at, road: theRoad, now })
    const site = backupSite(await journal.sites())
    assert.deepEqual(await journal.read(site).head(), await service.journal.read(site).head())
    assert.equal(backup.entries, (await service.journal.read(site).head())?.seq)
  })
}

function backupSite<T>(sites: readonly T[]): T {
  const [site] = sites
  assert.ok(site !== undefined)
  return site
}

describe('backups by the service', () => {
  test('without a folder none is made, and this is said', async () => {
    await using service = await runService()
    assert.equal((await service.ask('POST', '/api/backups')).status, 501)
    assert.equal(((await service.ask('GET', '/api/backups')).body as BackupsAnswer).schedule, null)
  })

  test('a backup that cannot be written is a failure that is told, logged and kept over a restart', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-failing-'))
    const inTheWay = join(folder, 'kept')
    writeFileSync(inTheWay, 'a file where the folder should be')
    const environment = { NILGROWTH_BACKUP_FOLDER: inTheWay, NILGROWTH_BACKUP_KEY_FILE: join(folder, 'key') }
    {
      await using service = await runService({ folder, environment })
      await openUnit(service)
      await service.ask('POST', '/api/backups')
      const { last } = await backupsWhenDone(service)
      assert.equal(last?.good, false)
      assert.ok(service.log.some((line) => line.startsWith('BACKUP FAILED: ') && !line.includes('\n')))
    }
    await using again = await runService({ folder, environment })
    assert.equal(((await again.ask('GET', '/api/backups')).body as BackupsAnswer).last?.good, false)
    rmSync(folder, { recursive: true })
  })

  test('of an altered record no backup is made, the one before stays, and nothing is left in the clear', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-altered-'))
    const kept = join(folder, 'kept')
    const environment = { NILGROWTH_BACKUP_FOLDER: kept, NILGROWTH_BACKUP_KEY_FILE: join(folder, 'key') }
    await using service = await runService({ folder, environment })
    await openUnit(service)
    await service.ask('POST', '/api/backups')
    assert.equal((await backupsWhenDone(service)).last?.good, true)
    const before = readdirSync(kept)
    const database = new DatabaseSync(service.file)
    database.exec("DROP TRIGGER entry_is_never_updated; UPDATE entry SET text = replace(text, 'Ada', 'Eve')")
    database.close()
    await service.ask('POST', '/api/backups')
    const { last } = await backupsWhenDone(service)
    assert.match(last?.says ?? '', /the record is not sound: entry \d+ of site unit/)
    assert.deepEqual(readdirSync(kept), before)
    assert.deepEqual(
      readdirSync(folder).filter((name) => name.startsWith('nilgrowth-work')),
      [],
    )
    rmSync(folder, { recursive: true })
  })
})
