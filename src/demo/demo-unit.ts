import type { EntryId, SentEntry, SiteId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import { bookAhead } from './book-ahead.ts'
import { bookedOnTop, plannedCases } from './case-plan.ts'
import { liveDay } from './day.ts'
import { diceOf } from './dice.ts'
import { type DigestOf, type Draft, type DraftFile, madeAtOf } from './draft.ts'
import { entryIdsOf } from './entry-ids.ts'
import type { Hospital } from './hospital.ts'
import { hospitalClockOf, instantOf, today } from './hospital-clock.ts'
import { registerUnit } from './register.ts'
import { stockOf } from './stock.ts'
import { bookCases } from './theatre.ts'

export interface DemoOptions {
  /** The same seed and the same `until` give the same entries, byte for byte. The stories are told of seed 1. */
  readonly seed: number
  /** The demo's present: the last entries are of this moment, and work is under way. */
  readonly until: Instant
  readonly site: SiteId
  /** SHA-256 of a text's UTF-8 bytes; handed in, since this code does no hashing of its own. */
  readonly digest: DigestOf
}

export type DemoStep =
  | ({ readonly kind: 'attachment' } & DraftFile)
  | { readonly kind: 'entry'; readonly entry: SentEntry }

/** A year of an invented hospital, in the order in which it was entered; a file goes before the entry that names it. */
export function* demoUnit(options: DemoOptions): Generator<DemoStep, void, void> {
  const clock = hospitalClockOf(options.until)
  const diceFor = diceOf(options.seed)
  const write = writerOf(options)
  const plan = plannedCases(diceFor)
  let waiting: Draft[] = []
  const hospital: Hospital = {
    clock,
    diceFor,
    digest: options.digest,
    stock: stockOf(),
    plan,
    onTop: bookedOnTop(diceFor, plan),
    write: (draft) => waiting.push(draft),
    next: { a: 0, b: 0, wash: 0 },
    freeAt: { a: 0, b: 0 },
    dirty: [],
    sealed: [],
    biologicals: [],
    inQuestion: new Set(),
    lowShelf: new Set(),
    lowShelfUsed: new Map(),
    exposed: [],
    handWashed: new Set(),
    afterHandWash: [],
    lateWounds: [],
  }
  registerUnit(hospital)
  for (const cases of [...hospital.plan, ...hospital.onTop]) bookCases(hospital, cases)
  bookAhead(hospital)
  for (let workingDay = 0; workingDay <= today; workingDay += 1) {
    liveDay(hospital, workingDay)
    // What the days to come may still write is all later than their mornings.
    const end = Math.min(clock.until + 1, clock.at(workingDay + 1, 0))
    const done = waiting.filter((draft) => madeAtOf(draft) < end).sort((a, b) => madeAtOf(a) - madeAtOf(b))
    waiting = waiting.filter((draft) => madeAtOf(draft) >= end)
    for (const draft of done) yield* write(draft)
  }
}

/** Turns drafts into entries, in the order in which they come. */
function writerOf({ seed, site }: DemoOptions): (draft: Draft) => Generator<DemoStep, void, void> {
  const idOf = entryIdsOf(seed)
  const named = new Map<string, EntryId>()
  return function* (draft) {
    for (const file of draft.files ?? []) yield { kind: 'attachment', ...file }
    const id = idOf(madeAtOf(draft))
    if (draft.name !== undefined) named.set(draft.name, id)
    const corrects = draft.corrects === undefined ? undefined : named.get(draft.corrects)
    const hypothesis = draft.tests === undefined ? undefined : named.get(draft.tests)
    const entry: SentEntry = {
      id,
      site,
      kind: draft.kind,
      happenedAt: instantOf(draft.at),
      by: draft.by,
      workstation: draft.room,
      // Every body of ours is plain JSON; its own type is narrower than that of a sent entry.
      body: { ...draft.body, ...(hypothesis === undefined ? {} : { hypothesis }) } as SentEntry['body'],
      ...(corrects === undefined ? {} : { corrects }),
      ...(draft.exception === undefined ? {} : { exception: draft.exception }),
    }
    yield { kind: 'entry', entry }
  }
}
