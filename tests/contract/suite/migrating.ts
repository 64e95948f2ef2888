import assert from 'node:assert/strict'
import { spawnSync } from 'node:child_process'
import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join as path } from 'node:path'
import { describe, test } from 'node:test'
import { fileURLToPath } from 'node:url'
import { lastFormat } from '#journal/migrations/format.ts'
import { steps } from '#journal/migrations/steps.ts'
import { openEngine, openJournal } from '#journal/open-journal.ts'
import { metaValue } from '#journal/meta.ts'
import type { Place } from '#journal/place.ts'
import { restoreStore } from '#journal/restore.ts'
import { verify } from '#journal/verify/verify.ts'
import { makeSet, mark, minutes, otherSite } from '../../support/entries.ts'
import type { EngineUnderTest, StoreUnderTest } from '../../support/store-under-test.ts'
import { laterSteps, nextFormat } from '../../support/test-steps.ts'
import { toyRoad } from '../../support/toy-road.ts'
import { keepAll, open, standingClock, wantSound } from './opened.ts'

const { now } = standingClock()
const road = toyRoad()
const story = [makeSet(1, 'a'), mark(2, 'a', { at: minutes(1) }), makeSet(3, 'b', { site: otherSite })]

/** A folder for what is kept before an upgrade, and the store told to use it. */
function withFolder(store: StoreUnderTest) {
  const folder = mkdtempSync(path(tmpdir(), 'nilgrowth-upgrade-'))
  const at: Place = store.at.kind === 'sqlite' ? store.at : { ...store.at, upgradeFolder: folder }
  const kept = () => {
    const where = at.kind === 'sqlite' ? dirname(at.file) : folder
    return readdirSync(where)
      .filter((name) => name.includes('before-format'))
      .map((name) => path(where, name))
      .sort()
  }
  return { at, kept, [Symbol.dispose]: () => rmSync(folder, { recursive: true, force: true }) }
}

async function formatOf(at: Place): Promise<number> {
  const engine = await openEngine(at, 'asItIs', { steps: laterSteps })
  try {
    return Number(await metaValue(engine.reading, 'format'))
  } finally {
    await engine.close()
  }
}

async function hashesOf(at: Place): Promise<string[]> {
  const engine = await openEngine(at, 'asItIs', { steps: laterSteps })
  try {
    const rows = await engine.reading.selectFrom('entry').select(['text', 'hash']).orderBy('id').execute()
    return rows.map(({ text, hash }) => `${hash} ${text}`)
  } finally {
    await engine.close()
  }
}

async function fillFirstFormat(at: Place): Promise<void> {
  // As a program without any step leaves it.
  await using journal = await openJournal({ at, road, now, opening: { steps: [] } })
  await keepAll(journal, story)
  await journal.attach(new Uint8Array(100).fill(3), 'text/plain')
}

export function migrating(engine: EngineUnderTest): void {
  describe('steps from one format of the tables to the next', () => {
    test('the steps are numbered without a gap', () => {
      assert.deepEqual(
        steps.map(({ to }) => to),
        steps.map((_, index) => index + 2),
      )
    })

    test('a new store has the last format and needs no backup', async () => {
      await using store = await engine.newStore('bare')
      using place = withFolder(store)
      await (await openJournal({ at: place.at, road, now, opening: { steps: laterSteps } })).close()
      assert.equal(await formatOf(place.at), lastFormat(laterSteps))
      assert.deepEqual(place.kept(), [])
      await store.tamper("INSERT INTO shelf_mark (id, says, colour) VALUES ('x', 'y', 'red')")
    })

    test('a store of format 1 is backed up and brought forward with the same texts and hashes', async () => {
      await using store = await engine.newStore('bare')
      using place = withFolder(store)
      const told: string[] = []
      await fillFirstFormat(place.at)
      assert.equal(await formatOf(place.at), 1)
      const before = await hashesOf(place.at)
      const opening = { steps: laterSteps, log: (line: string) => void told.push(line) }
      {
        await using journal = await openJournal({ at: place.at, road, now, opening })
        await keepAll(journal, [mark(4, 'a', { at: minutes(4) })])
      }
      assert.equal(await formatOf(place.at), lastFormat(laterSteps))
      assert.deepEqual((await hashesOf(place.at)).slice(0, story.length), before)
      const [kept, ...more] = place.kept()
      assert.ok(kept !== undefined)
      assert.deepEqual(more, [], 'one backup for all the steps')
      assert.match(
        told.join('\n'),
        new RegExp(`from format 1 to ${lastFormat(laterSteps)}; the store as it was is kept`),
      )
      assert.ok(told.join('\n').includes(kept))
      // Opened again there is nothing to do.
      await (await openJournal({ at: place.at, road, now, opening })).close()
      assert.equal(place.kept().length, 1)

      // What was kept is the store as it was.
      await using old = await engine.newStore('bare')
      const restored = await restoreStore({ at: old.at, road, now, file: kept, replace: false })
      assert.ok(restored.kind === 'restored')
      assert.deepEqual([restored.entries, restored.attachments], [story.length, 1])
      assert.deepEqual(await hashesOf(old.at), before)
      await wantSound(old)
      if (place.at.kind === 'sqlite') assert.equal(await formatOf({ kind: 'sqlite', file: kept }), 1)
    })

    test('a store of an older format can be verified without being changed', async () => {
      await using store = await engine.newStore('bare')
      using place = withFolder(store)
      await fillFirstFormat(place.at)
      assert.equal((await verify({ at: place.at, road })).kind, 'sound')
      assert.equal(await formatOf(place.at), 1)
      assert.deepEqual(place.kept(), [])
    })

    test('a step that fails leaves the store as it was, for the version before', async () => {
      await using store = await engine.newStore('bare')
      using place = withFolder(store)
      await fillFirstFormat(place.at)
      const before = await hashesOf(place.at)
      const wrong = { sqlite: ['CREATE TABLE'], postgres: ['CREATE TABLE'] }
      const broken = [...laterSteps, { to: lastFormat(laterSteps) + 1, what: 'no statement', statements: wrong }]
      await assert.rejects(openJournal({ at: place.at, road, now, opening: { steps: broken } }), /syntax|incomplete/)
      assert.equal(await formatOf(place.at), 1)
      await (await openJournal({ at: place.at, road, now, opening: { steps: [] } })).close()
      assert.deepEqual(await hashesOf(place.at), before)
    })

    test('a crash in the middle of a step leaves the store as it was; the next start goes through', async () => {
      await using store = await engine.newStore('bare')
      using place = withFolder(store)
      await fillFirstFormat(place.at)
      const before = await hashesOf(place.at)
      const script = fileURLToPath(new URL('../../crash/interrupted-step.ts', import.meta.url))
      const ended = spawnSync(process.execPath, [script, JSON.stringify(place.at)], { encoding: 'utf8' })
      assert.equal(ended.signal, 'SIGKILL', ended.stderr)
      assert.equal(await formatOf(place.at), 1)
      assert.deepEqual(await hashesOf(place.at), before)
      assert.equal(place.kept().length, 1, 'the backup stands before the step')
      await (await openJournal({ at: place.at, road, now, opening: { steps: laterSteps } })).close()
      assert.equal(await formatOf(place.at), lastFormat(laterSteps))
      assert.deepEqual(await hashesOf(place.at), before)
      assert.equal(place.kept().length, 2, 'an earlier backup is not overwritten')
    })

    test('an older program refuses a newer store and changes nothing', async () => {
      await using store = await engine.newStore('bare')
      using place = withFolder(store)
      await (await openJournal({ at: place.at, road, now, opening: { steps: laterSteps } })).close()
      const refusal = new RegExp(`tables of format ${nextFormat + 1}, from a newer version .* up to ${nextFormat - 1}`)
      await assert.rejects(open({ ...store, at: place.at }), { name: 'StoreError', message: refusal })
      await assert.rejects(verify({ at: place.at, road }), { name: 'StoreError', message: refusal })
      assert.equal(await formatOf(place.at), lastFormat(laterSteps))
    })

    if (engine.name === 'sqlite') {
      test('without room for the backup no step is taken', async () => {
        await using store = await engine.newStore('bare')
        using place = withFolder(store)
        await fillFirstFormat(place.at)
        const { file } = place.at as Extract<Place, { kind: 'sqlite' }>
        // A folder in the way of the copy, as any name that cannot be written would be.
        mkdirSync(path(`${file}.before-format-2.part`, 'in the way'), { recursive: true })
        await assert.rejects(openJournal({ at: place.at, road, now, opening: { steps: laterSteps } }))
        assert.equal(existsSync(`${file}.before-format-2`), false)
        assert.equal(await formatOf(place.at), 1)
      })
    }
  })
}
