import assert from 'node:assert/strict'
import { existsSync, mkdtempSync, readFileSync, renameSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, describe, test } from 'node:test'
import { v7 } from 'uuid'
import type { Instant } from '#road/instant.ts'
import type { Journal } from '#journal/journal.ts'
import { backupStore } from '#journal/backup/backup.ts'
import { copiesBeside } from '#journal/identities/copies-beside.ts'
import { formatWithIdentities } from '#journal/identities/lines.ts'
import { lastFormat } from '#journal/migrations/format.ts'
import { steps } from '#journal/migrations/steps.ts'
import { openJournal } from '#journal/open-journal.ts'
import type { Place } from '#journal/place.ts'
import { restoreStore } from '#journal/restore.ts'
import { patientIdentities } from '#service/identities/identities.ts'
import { makeSet, minutes, site } from '../../support/entries.ts'
import type { EngineUnderTest } from '../../support/store-under-test.ts'
import { toyRoad } from '../../support/toy-road.ts'
import { keepAll, open } from './opened.ts'

const asked = { by: null, why: 'care' } as const
const ada = { name: 'Ada Invented' }

export function identifying(engine: EngineUnderTest): void {
  describe('who the patients are', () => {
    const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-identifying-'))
    after(() => rmSync(folder, { recursive: true }))
    let keys = 0
    const newFolder = (): string => mkdtempSync(join(folder, 'upgrade-'))
    const newKeyFile = (): string => join(folder, `key-${++keys}`)
    let minute = 60
    const now = (): Instant => minutes((minute += 1))
    const service = (journal: Journal, keyFile: string) =>
      patientIdentities({ identities: journal.identities(site), site, keyFile, now })

    test('given identities and their key gone, when another is kept, then it is refused until the key is back', async () => {
      await using store = await engine.newStore()
      await using journal = await open(store)
      const keyFile = newKeyFile()
      await service(journal, keyFile).keep('case:a', ada, asked)
      renameSync(keyFile, `${keyFile}.away`)
      const later = service(journal, keyFile)
      await assert.rejects(later.keep('case:b', ada, asked), {
        name: 'StoreError',
        message: /is not at .*: put it back/,
      })
      assert.equal(existsSync(keyFile), false, 'no second key was made')
      assert.equal(await journal.identities(site).state('case:b'), undefined)
      assert.equal((await journal.identities(site).accesses({ case: 'case:b', limit: 9 })).length, 0)
      renameSync(`${keyFile}.away`, keyFile)
      await later.keep('case:b', ada, asked)
      assert.equal((await later.see('case:a', asked)).kind, 'seen')
    })

    test('given identities that are all erased, when another is kept without a key, then one is made', async () => {
      await using store = await engine.newStore()
      await using journal = await open(store)
      const keyFile = newKeyFile()
      await service(journal, keyFile).keep('case:a', ada, asked)
      rmSync(keyFile)
      assert.equal(await service(journal, keyFile).erase('case:a', asked), true)
      await service(journal, keyFile).keep('case:b', ada, asked)
      assert.equal((await service(journal, keyFile).see('case:b', asked)).kind, 'seen')
    })

    // A file of SQLite has one service.
    if (engine.name === 'postgres')
      test('given two services of one site with keys of their own, when both keep, then one alone does and no key is made for the other', async () => {
        await using store = await engine.newStore()
        await using first = await open(store)
        await using second = await open(store)
        await keepAll(first, [makeSet(1, 'a')])
        const [one, two] = [newKeyFile(), newKeyFile()]
        const kept = await Promise.allSettled([
          service(first, one).keep('case:a', ada, asked),
          service(second, two).keep('case:b', ada, asked),
        ])
        assert.deepEqual(kept.map(({ status }) => status).sort(), ['fulfilled', 'rejected'])
        assert.notEqual(existsSync(one), existsSync(two))
      })

    test('given lines of a backup, when they are imported, then all is refused and nothing of a patient is overwritten', async () => {
      await using from = await engine.newStore()
      await using store = await engine.newStore()
      await using journal = await open(store)
      await using source = await open(from)
      await keepAll(source, [makeSet(1, 'a')])
      const patients = service(journal, newKeyFile())
      await patients.keep('case:a', ada, asked)
      const before = await journal.identities(site).accesses({ limit: 9 })
      const seenBySomebodyElse = { person: 'person:mira', act: 'seen', case_id: 'case:a', why: 'care' }
      for (const line of [
        { identity: { site, case_id: 'case:a', sealed: 'Z2FyYmFnZQ==', kept_by: null, kept_at: minutes(9999) } },
        { identityAccess: { site, id: v7(), at: minutes(3), ...seenBySomebodyElse } },
      ]) {
        const outcome = await journal.importLines(
          (async function* () {
            yield* source.exportLines()
            yield JSON.stringify(line)
          })(),
        )
        assert.ok(outcome.kind === 'notImported', JSON.stringify(outcome))
        assert.match(outcome.says, /wanted the lines of an export, this one is of a backup/)
      }
      assert.deepEqual(await journal.sites(), [])
      assert.deepEqual(await journal.identities(site).accesses({ limit: 9 }), before)
      assert.equal((await patients.see('case:a', asked)).kind, 'seen')
    })

    test('given identities in tables of an older format, when these are brought forward, then the copy that is kept holds them', async () => {
      await using store = await engine.newStore('bare')
      const at: Place = store.at.kind === 'sqlite' ? store.at : { ...store.at, upgradeFolder: newFolder() }
      const opening = { steps: steps.filter(({ to }) => to <= formatWithIdentities) }
      const keyFile = newKeyFile()
      {
        await using journal = await openJournal({ at, road: toyRoad(), now, opening })
        await keepAll(journal, [makeSet(1, 'a')])
        await service(journal, keyFile).keep('case:a', ada, asked)
      }
      const told: string[] = []
      await (await openJournal({ at, road: toyRoad(), now, opening: { log: (line) => void told.push(line) } })).close()
      const file = /is kept as (.*)$/.exec(told.join('\n'))?.[1] ?? assert.fail(told.join('\n'))
      await using other = await engine.newStore()
      const restored = await restoreStore({ at: other.at, road: toyRoad(), now, file, replace: false })
      assert.equal(restored.kind, 'restored')
      await using journal = await open(other)
      assert.deepEqual((await service(journal, keyFile).see('case:a', asked)).kind, 'seen')
    })

    test('given a store that gave way to a restored one and a copy of an upgrade, when copies are asked for, then both are named', async () => {
      await using store = await engine.newStore('bare')
      const upgradeFolder = newFolder()
      const at: Place = store.at.kind === 'sqlite' ? store.at : { ...store.at, upgradeFolder }
      assert.deepEqual(await copiesBeside(at), [])
      const opening = { steps: steps.slice(0, -1), log: () => {} }
      {
        await using journal = await openJournal({ at, road: toyRoad(), now, opening })
        await keepAll(journal, [makeSet(1, 'a')])
      }
      await (await openJournal({ at, road: toyRoad(), now, opening: { log: () => {} } })).close()
      const file = join(folder, `${engine.name}.backup`)
      await backupStore({ at, road: toyRoad(), now, file })
      const restored = await restoreStore({ at, road: toyRoad(), now, file, replace: true })
      assert.ok(restored.kind === 'restored' && restored.aside !== undefined)
      const copies = await copiesBeside(at)
      assert.equal(copies.length, 2, copies.join(', '))
      const aside = engine.name === 'sqlite' ? restored.aside : `schema ${restored.aside}`
      assert.ok(copies.includes(aside), copies.join(', '))
      assert.ok(
        copies.some((copy) => copy.includes(`before-format-${lastFormat(steps)}`)),
        copies.join(', '),
      )
      if (engine.name === 'postgres') await store.tamper(`DROP SCHEMA ${restored.aside} CASCADE`)
    })

    test('given another key than that of the site, when an identity is kept, then it is said; with the right one it is kept', async () => {
      await using store = await engine.newStore()
      await using journal = await open(store)
      const [own, other] = [newKeyFile(), newKeyFile()]
      await service(journal, own).keep('case:a', ada, asked)
      await using elsewhere = await engine.newStore()
      await using apart = await open(elsewhere)
      await service(apart, other).keep('case:a', ada, asked)
      const wrong = service(journal, other)
      await assert.rejects(wrong.keep('case:b', ada, asked), {
        name: 'StoreError',
        message: /is not the one by which the identities of unit-a are encrypted/,
      })
      assert.notEqual(readFileSync(own, 'utf8'), readFileSync(other, 'utf8'))
      rmSync(other)
      renameSync(own, other)
      await wrong.keep('case:b', ada, asked)
      assert.equal((await wrong.see('case:a', asked)).kind, 'seen', 'the key is read anew when it is another one')
    })
  })
}
