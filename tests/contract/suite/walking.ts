import assert from 'node:assert/strict'
import { createHash } from 'node:crypto'
import { test } from 'node:test'
import { demoUnit } from '#demo/demo-unit.ts'
import type { Journal } from '#journal/journal.ts'
import { AttachmentDigest } from '#road/attachment.ts'
import type { SentEntry } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import { subjectKinds } from '#road/subject.ts'
import { theRoad } from '#road/the-road.ts'
import { sent, site } from '../../support/entries.ts'
import { type EngineUnderTest, sqliteUnderTest } from '../../support/store-under-test.ts'
import { keepAll, open, standingClock, wantSound } from './opened.ts'

const until = '2026-11-25T09:31:00.000Z' as Instant
const digest = (text: string) => AttachmentDigest.parse(createHash('sha256').update(text).digest('hex'))

/** The first weeks of the demonstration unit, under the real rules. */
async function play(journal: Journal, entries: number): Promise<void> {
  const chunk: SentEntry[] = []
  for (const step of demoUnit({ seed: 1, until, site, digest })) {
    if (chunk.length === entries) break
    if (step.kind === 'attachment') await journal.attach(new TextEncoder().encode(step.text), step.mediaType)
    else chunk.push(step.entry)
  }
  await keepAll(journal, chunk)
}

async function allKnown(journal: Journal): Promise<unknown> {
  const pages: unknown[] = []
  for (const kind of subjectKinds) pages.push(await journal.read(site).knownOfKind(kind, { limit: 10_000 }))
  return pages
}

export function walking(engine: EngineUnderTest): void {
  test('the real road: what is known is the same after a refold, and after a move to another engine', async () => {
    await using store = await engine.newStore('bare')
    await using other = await sqliteUnderTest.newStore()
    const options = { road: theRoad, ...standingClock(until) }
    {
      await using journal = await open(store, options)
      await using copy = await open(other, options)
      await play(journal, 1500)
      const known = await allKnown(journal)
      await journal.refold()
      assert.deepEqual(await allKnown(journal), known)
      assert.equal((await copy.importLines(journal.exportLines())).kind, 'imported')
      assert.deepEqual(await allKnown(copy), known)
    }
    await wantSound(store, theRoad)
    await wantSound(other, theRoad)
  })

  test('a recall that growth has opened can be joined by a person who found the defect', async () => {
    await using store = await engine.newStore()
    await using journal = await open(store, { road: theRoad, ...standingClock(until) })
    const machine = {
      machine: 'machine:s',
      name: 'S',
      type: 'steamSteriliser',
      airRemoval: 'dynamic',
      chamberLitres: 300,
      programs: ['porous-134'],
    }
    const load = { load: 'load:1', machine: 'machine:s', program: 'porous-134', purpose: 'goods', rounds: [] }
    const growth = { load: 'load:1', lot: 'b', result: 'growth', control: null, incubatedHours: 24 }
    const found = { recall: 'recall:1', load: 'load:1', why: 'a torn door seal', defectProven: true }
    const by = 'person:nilgrowth' as const
    await keepAll(journal, [
      sent({ number: 1, by, kind: 'machine-registered', body: machine }),
      sent({ number: 2, by, kind: 'load-built', body: load }),
      sent({ number: 3, by, kind: 'biological-read', body: growth }),
      sent({ number: 4, by, kind: 'recall-opened', body: found }),
    ])
    const recall = (await journal.read(site).known(['recall:1'])).get('recall:1')
    assert.equal(recall?.opened?.because, 'biologicalGrowth')
    assert.equal(recall?.opened?.defectProven, true)
  })
}
