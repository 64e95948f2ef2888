import assert from 'node:assert/strict'
import type { Journal } from '#journal/journal.ts'
import { openJournal } from '#journal/open-journal.ts'
import type { Outcome } from '#journal/outcome.ts'
import { verify } from '#journal/verify/verify.ts'
import type { KeptEntry, SentEntry } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import type { Road } from '#road/road.ts'
import type { SubjectId } from '#road/subject.ts'
import { minutes, site } from '../../support/entries.ts'
import type { StoreUnderTest } from '../../support/store-under-test.ts'
import { type ToyState, toyRoad } from '../../support/toy-road.ts'

/** A clock that stands until it is set. It begins an hour after the stories, so that all of them have happened. */
export function standingClock(at: Instant = minutes(60)) {
  const clock = { at, now: () => clock.at }
  return clock
}

export async function open(
  store: StoreUnderTest,
  options: { road?: Road; now?: () => Instant } = {},
): Promise<Journal> {
  return await openJournal({ at: store.at, road: options.road ?? toyRoad(), now: options.now ?? standingClock().now })
}

/** Appends and wants all of it kept. */
export async function keepAll(journal: Journal, entries: readonly SentEntry[]): Promise<KeptEntry[]> {
  return (await journal.appendMany(entries)).map(kept)
}

export function kept(outcome: Outcome): KeptEntry {
  assert.equal(outcome.kind, 'kept', JSON.stringify(outcome))
  assert.ok(outcome.kind === 'kept')
  return outcome.entry
}

export async function marksOf(journal: Journal, set: string): Promise<readonly string[] | undefined> {
  const id: SubjectId<'set'> = `set:${set}`
  const state = (await journal.read(site).known([id])).get(id) as unknown as ToyState | undefined
  return state?.marks
}

export async function wantSound(store: StoreUnderTest, road: Road = toyRoad()): Promise<void> {
  const result = await verify({ at: store.at, road })
  assert.equal(result.kind, 'sound', JSON.stringify(result))
}

/** Everything that is derived, as far as it must not depend on the order of arrival. */
export async function derivedOf(journal: Journal, sets: readonly string[]): Promise<unknown> {
  const subjects = sets.map((set): SubjectId => `set:${set}`)
  const reader = journal.read(site)
  const rows = await reader.knownOfKind('set', { limit: 1000 })
  const links = await reader.links({ end: 'from', subjects })
  return { rows, links }
}
