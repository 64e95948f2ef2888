import { type EntryId, type KeptEntry, compareForFold } from '#road/entry.ts'
import { type FoldStep, foldSteps, isRemembered } from '#road/fold.ts'
import type { Instant } from '#road/instant.ts'
import type { TypedKept } from '#road/kinds.ts'
import type { Road } from '#road/road.ts'
import { type SubjectId, subjectKind } from '#road/subject.ts'
import { whatIsSaid } from './said.ts'

/** What is known of a subject, and how far its fold has come. */
export interface KnownRecord {
  readonly standing: string
  readonly since: Instant
  readonly state: unknown
  readonly foldedAt: Instant
  readonly foldedId: EntryId
  /** How many entries have been folded. */
  readonly entries: number
}

/** Takes one more entry into what is known. */
export function foldStep(
  road: Road,
  subject: SubjectId,
  step: { readonly before: KnownRecord | undefined; readonly entry: TypedKept },
): KnownRecord {
  const { before, entry } = step
  const fold = road.foldOf(subjectKind(subject))
  const state = fold.evolve(before === undefined ? fold.begin(subject) : before.state, entry)
  return recordOf(road, subject, { before, entry, state })
}

function recordOf(
  road: Road,
  subject: SubjectId,
  { before, entry, state }: { before: KnownRecord | undefined; entry: TypedKept; state: unknown },
): KnownRecord {
  const standing = road.foldOf(subjectKind(subject)).standing(state)
  return {
    state,
    standing,
    since: before?.standing === standing ? before.since : entry.happenedAt,
    foldedAt: entry.happenedAt,
    foldedId: entry.id,
    entries: (before?.entries ?? 0) + 1,
  }
}

/** Whether an entry comes after all that has been folded, so that one more step is enough. */
export function comesAfter(record: KnownRecord, entry: TypedKept): boolean {
  return compareForFold(entry, { happenedAt: record.foldedAt, id: record.foldedId }) > 0
}

/**
 * Folds a subject from its entries. A correction may have moved an entry to another subject, so an
 * effective entry only counts where it speaks of this subject itself.
 */
export function foldAll(road: Road, subject: SubjectId, { entries, each }: FoldInput): KnownRecord | undefined {
  return foldThrough(road, subject, { before: undefined, steps: foldSteps(entries), each })
}

/** Goes on with a fold by entries that all stand and come after it, in their order. */
export function foldOn(
  road: Road,
  subject: SubjectId,
  { before, entries, each }: FoldInput & { readonly before: KnownRecord | undefined },
): KnownRecord | undefined {
  const steps = entries.map((entry) => ({ kind: 'stands' as const, entry }))
  return foldThrough(road, subject, { before, steps, each })
}

function foldThrough(
  road: Road,
  subject: SubjectId,
  { before, steps, each }: Pick<FoldInput, 'each'> & FoldThrough,
): KnownRecord | undefined {
  const fold = road.foldOf(subjectKind(subject))
  const { takeBack } = fold
  const standsHere = (id: EntryId | undefined) =>
    steps.some((each) => each.kind === 'stands' && each.entry.id === id && isAbout(road, each.entry, subject))
  let record = before
  for (const step of steps) {
    // What was taken back leaves nothing behind of itself, unless its subject says what.
    if (step.kind === 'takenBack' && !isRemembered(fold, record !== undefined, () => standsHere(step.instead))) continue
    const said = whatIsSaid(road, step.entry)
    if (!said?.subjects.includes(subject)) continue
    const { entry } = said
    record =
      step.kind === 'takenBack' && takeBack !== undefined
        ? recordOf(road, subject, {
            before: record,
            entry,
            state: takeBack(record === undefined ? fold.begin(subject) : record.state, entry, step.instead),
          })
        : foldStep(road, subject, { before: record, entry })
    each?.(record)
  }
  return record
}

function isAbout(road: Road, entry: KeptEntry, subject: SubjectId): boolean {
  return whatIsSaid(road, entry)?.subjects.includes(subject) === true
}

interface FoldThrough {
  readonly before: KnownRecord | undefined
  readonly steps: readonly FoldStep<KeptEntry>[]
}

interface FoldInput {
  readonly entries: readonly KeptEntry[]
  /** Sees what is known after each entry. */
  readonly each?: ((record: KnownRecord) => void) | undefined
}
