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
import { site } from '../../support/entries.ts'
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
    await using store = await engine.newStore()
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
}
