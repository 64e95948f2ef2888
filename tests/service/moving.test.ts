import assert from 'node:assert/strict'
import { existsSync, mkdtempSync, rmSync, symlinkSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, before, describe, test } from 'node:test'
import { v7 } from 'uuid'
import type { SubjectId } from '#road/subject.ts'
import { backupStore } from '#journal/backup/backup.ts'
import type { Passkey } from '#journal/credentials/credentials.ts'
import type { Journal } from '#journal/journal.ts'
import { moveSite, type MoveOutcome } from '#journal/move/move-site.ts'
import { openEngine, openJournal } from '#journal/open-journal.ts'
import { type Place, saidPlace } from '#journal/place.ts'
import { restoreStore } from '#journal/restore.ts'
import { sealKey } from '#journal/seal/seal-key.ts'
import { StoreError } from '#journal/store-error.ts'
import { StoreTrouble, troubleOf } from '#journal/store-trouble.ts'
import { verify } from '#journal/verify/verify.ts'
import { runMove } from '#cli/move.ts'
import { makeSet, mark, minutes, otherSite, sent, site, start, withdraw } from '../support/entries.ts'
import { captured } from '#cli/captured.suite.ts'
import { type PostgresServer, startPostgres } from '../support/postgres-server.ts'
import { postgresUnderTest, sqliteUnderTest, type StoreUnderTest } from '../support/store-under-test.ts'
import { runService } from '../support/running-service.ts'
import { toyRoad } from '../support/toy-road.ts'

const road = toyRoad()
const now = () => minutes(60)
const open = (at: Place) => openJournal({ at, road, now })
const move = (from: Place, to: Place, only = site) => moveSite({ from, to, site: only, road, now })

async function hashesOf(at: Place): Promise<string[]> {
  const engine = await openEngine(at, 'asItIs')
  try {
    const rows = await engine.reading.selectFrom('entry').selectAll().where('site', '=', site).orderBy('seq').execute()
    const seals = await engine.reading.selectFrom('seal').select('text').where('site', '=', site).execute()
    return [...rows.map(({ text, hash }) => `${hash} ${text}`), ...seals.map(({ text }) => text)]
  } finally {
    await engine.close()
  }
}

const sealed = Buffer.from('as if encrypted')
const passkey: Passkey = {
  id: 'k1',
  person: 'person:p1',
  publicKey: 'x',
  counter: 0,
  host: 'unit.example',
  name: 'A phone',
  keptAt: start,
  usedAt: null,
}

/** A record of two sites, with a file that one of them names, a correction, a seal and somebody who may sign in. */
async function fill(at: Place, keyFile: string): Promise<string> {
  await using journal = await open(at)
  const file = await journal.attach(new Uint8Array(3000).fill(9), 'text/plain')
  const photographed = sent({ number: 3, kind: 'set-photographed', body: { set: 'set:a', file }, at: minutes(2) })
  const entries = [makeSet(1, 'a'), mark(2, 'a', { at: minutes(1) }), photographed, withdraw(4, 2, { at: minutes(3) })]
  for (const outcome of await journal.appendMany([...entries, makeSet(5, 'a', { site: otherSite })]))
    assert.equal(outcome.kind, 'kept')
  await journal.attach(new Uint8Array(10).fill(1), 'text/plain')
  await journal.seal(site, sealKey(keyFile))
  const people = journal.credentials(site)
  const [person, changedAt] = ['person:p1', start] as const
  const none = { pin: null, badge: null, code: null, failures: 0, lockedUntil: null }
  await people.keepAccount({ person, passphrase: '$argon2id$x', changedAt, ...none })
  await people.keepDevice({ id: 'd1', token: 't', name: 'T', enrolledBy: person, enrolledAt: start, endedAt: null })
  await people.startSession({
    token: 's',
    person,
    device: null,
    how: 'passphrase',
    startedAt: start,
    seenAt: start,
    endedAt: null,
  })
  await people.keepPasskey(passkey)
  const looked = { id: v7(), at: minutes(2), person: null, act: 'kept', case: 'case:a', why: 'care' } as const
  await journal.identities(site).keep(looked, () => sealed)
  await people.note({ id: '01a211e0', at: start, person, what: 'signed in', about: null })
  return file
}

function otherAddresses(at: Place, folder: string): readonly Place[] {
  if (at.kind === 'postgres') {
    const { url, ...rest } = at
    return [
      at,
      ...[url.replace('postgres:', 'postgresql:'), `${url}${url.includes('?') ? '&' : '?'}application_name=x`].map(
        (each) => ({ ...rest, url: each }),
      ),
    ]
  }
  const link = join(folder, 'link.sqlite')
  symlinkSync(at.file, link)
  return [at, { kind: 'sqlite', file: link }, { kind: 'sqlite', file: at.file.replace(/\/([^/]*)$/, '/./$1') }]
}

/** What is beside the record is closed with it, but for the erasure of what is still held here. */
async function wantClosedBeside(journal: Journal): Promise<void> {
  const people = journal.credentials(site)
  const [account] = await people.accounts()
  assert.ok(account)
  const identities = journal.identities(site)
  const looked = { id: v7(), at: minutes(5), person: null, why: 'care' } as const
  const keep = (of: SubjectId<'case'>) => identities.keep({ ...looked, act: 'kept', case: of }, () => sealed)
  for (const change of [
    () => people.keepAccount(account),
    () => people.keepAccount({ ...account, person: 'person:p9' }),
    () => people.endDevice('d1', minutes(5)),
    () => people.endPasskeys('person:p1'),
    () => people.keepPasskey({ ...passkey, id: 'another' }),
    () => keep('case:a'),
    () => keep('case:b'),
  ])
    await assert.rejects(change(), closed)
  assert.equal(await identities.erase('case:a', { ...looked, act: 'erased', case: 'case:a' }), true)
  const elsewhere = journal.credentials(otherSite)
  await elsewhere.keepAccount({ ...account, person: 'person:p9' })
}

function wantMoved(outcome: MoveOutcome): Extract<MoveOutcome, { kind: 'moved' }> {
  assert.ok(outcome.kind === 'moved', JSON.stringify(outcome))
  return outcome
}

const closed = (error: unknown) => {
  const told = troubleOf(error)
  return told instanceof StoreTrouble && told.trouble === 'movedAway'
}

describe('a site moved from one store to another', () => {
  let server: PostgresServer | undefined
  let folder = ''
  before(async () => {
    folder = mkdtempSync(join(tmpdir(), 'nilgrowth-move-'))
    server = await startPostgres('fast')
  })
  after(async () => {
    await server?.[Symbol.asyncDispose]()
    rmSync(folder, { recursive: true, force: true })
  })
  const postgres = postgresUnderTest(() => server?.url ?? '')
  const directions = [
    ['SQLite to PostgreSQL', sqliteUnderTest, postgres],
    ['PostgreSQL to SQLite', postgres, sqliteUnderTest],
  ] as const

  for (const [name, from, to] of directions) {
    test(`${name}, and back: the same texts and hashes, and who may sign in`, async () => {
      await using here: StoreUnderTest = await from.newStore()
      await using there: StoreUnderTest = await to.newStore()
      const file = await fill(here.at, join(folder, `${from.name}-key`))
      const hashes = await hashesOf(here.at)

      const moved = wantMoved(await move(here.at, there.at))
      assert.deepEqual(await hashesOf(there.at), hashes)
      assert.deepEqual(moved.there, await verify({ at: there.at, road, site }))
      assert.deepEqual([moved.entries, moved.attachments, moved.accounts, moved.tablets], [4, 1, 1, 1])
      {
        await using journal = await open(there.at)
        assert.deepEqual(await journal.sites(), [site])
        assert.equal((await journal.read(site).attachment(file as never))?.bytes.length, 3000)
        const people = journal.credentials(site)
        assert.equal((await people.accounts()).length, 1)
        assert.equal((await people.deviceOf('t'))?.name, 'T')
        assert.equal(await people.session('s'), undefined)
        assert.deepEqual(await people.passkeysOf('person:p1'), [passkey])
        // Lost there: it must not come back with the site.
        await people.endPasskeys('person:p1')
        assert.equal((await journal.identities(site).state('case:a'))?.is, 'kept')
        assert.equal((await people.accesses({ limit: 10 })).length, 1)
        const [seal] = await journal.seals(site, 1)
        assert.ok(seal)
        assert.equal((await journal.checkSeal(seal)).kind, 'holds')
        assert.equal((await journal.append(mark(6, 'a', { at: minutes(4) }))).kind, 'kept')
      }
      {
        await using journal = await open(here.at)
        await assert.rejects(journal.append(mark(7, 'a', { at: minutes(4) })), closed)
        assert.equal((await journal.append(mark(8, 'a', { at: minutes(4), site: otherSite }))).kind, 'kept')
        assert.equal((await journal.movedAway(site))?.at, now())
        await wantClosedBeside(journal)
      }
      await assert.rejects(move(here.at, there.at), /Nothing was moved: the record of unit-a was moved to/)

      // Back to where it came from: what was there is the beginning of this record.
      const back = wantMoved(await move(there.at, here.at))
      assert.equal(back.entries, 1)
      assert.equal((await hashesOf(here.at)).length, hashes.length + 1)
      assert.equal((await verify({ at: here.at, road })).kind, 'sound')
      await using journal = await open(here.at)
      assert.equal((await journal.append(mark(9, 'a', { at: minutes(5) }))).kind, 'kept')
      assert.deepEqual(await journal.credentials(site).passkeysOf('person:p1'), [])
    })

    test(`${name}: a site that was moved away stays closed when a backup of its store, older or newer, is restored`, async () => {
      await using here = await from.newStore()
      await using there = await to.newStore()
      await fill(here.at, join(folder, `${from.name}-key`))
      const backup = async (file: string) => {
        assert.equal((await backupStore({ at: here.at, road, now, file })).kind, 'sound')
        return file
      }
      const older = await backup(join(folder, `${from.name}-older`))
      wantMoved(await move(here.at, there.at))
      const newer = await backup(join(folder, `${from.name}-newer`))
      for (const [minute, file] of [
        [61, older],
        [62, newer],
      ] as const) {
        const job = { at: here.at, road, now: () => minutes(minute), file, replace: true }
        const restored = await restoreStore(job)
        assert.ok(restored.kind === 'restored')
        assert.deepEqual(
          restored.closed.map((row) => [row.site, row.at, row.goes_on]),
          [[site, now(), saidPlace(there.at)]],
        )
        await using journal = await open(here.at)
        await assert.rejects(journal.append(mark(7, 'a', { at: minutes(4) })), closed)
        assert.equal((await journal.movedAway(site))?.at, now())
        const other = mark(minute, 'a', { at: minutes(4), site: otherSite })
        assert.equal((await journal.append(other)).kind, 'kept')
      }
      // In a store of its own the older one is the record as it was.
      await using apart = await from.newStore()
      const alone = await restoreStore({ at: apart.at, road, now, file: older, replace: false })
      assert.deepEqual(alone.kind === 'restored' && alone.closed, [])
    })

    test(`${name}: a store that holds another record of the site is left as it is`, async () => {
      await using here = await from.newStore()
      await using there = await to.newStore()
      await fill(here.at, join(folder, `${from.name}-key`))
      {
        await using journal = await open(there.at)
        assert.equal((await journal.append(makeSet(50, 'a'))).kind, 'kept')
      }
      const before = await hashesOf(there.at)
      await assert.rejects(move(here.at, there.at), /holds 1 entries of unit-a that are not the beginning/)
      assert.deepEqual(await hashesOf(there.at), before)
      await using journal = await open(here.at)
      assert.equal((await journal.append(mark(51, 'a', { at: minutes(4) }))).kind, 'kept')
    })

    test(`${name}: a move that was cut short after the copy is finished by the same call`, async () => {
      await using here = await from.newStore()
      await using there = await to.newStore()
      await fill(here.at, join(folder, `${from.name}-key`))
      wantMoved(await move(here.at, there.at))
      // As it stands when the program was killed before it closed the site here.
      await here.tamper('DELETE FROM moved')
      const again = wantMoved(await move(here.at, there.at))
      assert.equal(again.entries, 0)
      assert.deepEqual(await hashesOf(there.at), await hashesOf(here.at))
    })
  }

  for (const engine of [sqliteUnderTest, postgres])
    test(
      `${engine.name}: a move to the same store by another address is refused at once`,
      { timeout: 60_000 },
      async () => {
        await using here = await engine.newStore()
        await fill(here.at, join(folder, `${engine.name}-key`))
        const before = await hashesOf(here.at)
        for (const other of otherAddresses(here.at, folder))
          await assert.rejects(move(here.at, other), {
            name: 'StoreError',
            message: /^Cannot move a record to where it is: .* is this store\. Name another place$/,
          })
        assert.deepEqual(await hashesOf(here.at), before)
        await using journal = await open(here.at)
        assert.equal(await journal.movedAway(site), undefined)
        assert.equal((await journal.append(mark(9, 'a', { at: minutes(5) }))).kind, 'kept')
      },
    )

  test('a record with a forged entry is not moved', async () => {
    await using here = await sqliteUnderTest.newStore()
    await using there = await sqliteUnderTest.newStore()
    await fill(here.at, join(folder, 'sqlite-key'))
    await here.dropGuards()
    await here.tamper(`UPDATE entry SET text = replace(text, '"mark":"m2"', '"mark":"m3"') WHERE seq = 2`)
    await assert.rejects(move(here.at, there.at), StoreError)
    assert.ok(there.at.kind === 'sqlite')
    assert.equal(existsSync(there.at.file), false)
  })

  test('the command moves, and a service does not open what was moved away', async () => {
    await using here = await sqliteUnderTest.newStore()
    assert.ok(here.at.kind === 'sqlite')
    const data = ['--data', here.at.file]
    const nowhere = captured()
    assert.equal(await runMove(data, nowhere.io), 2)
    assert.match(nowhere.err(), /^--to-data or --to-database: wanted one of them/)
    const missing = captured()
    assert.equal(await runMove([...data, '--to-data', join(folder, 'x')], missing.io), 1)
    assert.match(missing.err(), /^move: No journal is kept at/)

    await fill(here.at, join(folder, 'sqlite-key'))
    const unnamed = captured()
    assert.equal(await runMove([...data, '--to-data', join(folder, 'x')], unnamed.io), 1)
    assert.match(unnamed.err(), /--site: wanted one of unit-a, unit-b; none is named/)
    const moved = captured()
    assert.equal(await runMove([...data, '--site', site, '--to-data', join(folder, 'y')], moved.io), 0, moved.err())
    assert.match(
      moved.out(),
      /^moved unit-a: 4 entries and 1 attachments, 1 accounts and 1 tablets\nboth end at entry 4/,
    )
    assert.match(
      moved.out(),
      /who the patients are is read there when .*unit\.sqlite\.identity-key is brought to .*y\.identity-key/,
    )
    const environment = { NILGROWTH_DATA: here.at.file, NILGROWTH_SITE: site }
    await assert.rejects(
      runService({ environment }),
      /The record of unit-a was moved to .*y at .*: open the service there/,
    )
  })
})
