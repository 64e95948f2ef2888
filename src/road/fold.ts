import { compareForFold, type EntryId } from './entry.ts'
import type { TypedKept } from './kinds.ts'
import type { SubjectId, SubjectKind } from './subject.ts'

/**
 * What is known of one kind of subject: the entries about it, taken one after the other.
 * A state is plain JSON, so that what is stored can be compared with what is refolded.
 */
export interface Fold<Kind extends SubjectKind, State> {
  readonly subject: Kind
  readonly begin: (id: SubjectId<Kind>) => State
  /** Total over all kinds of entry: an entry that says nothing of this subject leaves the state as it is. */
  readonly evolve: (state: State, entry: TypedKept) => State
  /**
   * What is left when an entry has been withdrawn or corrected, at the place that it had: the decision that a decision had
   * replaced was set aside, and nobody has judged that one anew. `instead` is the correction that stands for it.
   */
  readonly takeBack?: (state: State, taken: TypedKept, instead: EntryId | undefined) => State
  /** What a correction replaced is remembered also where it was the first that was said of the subject. */
  readonly remembersFirst?: true
  /** Where the subject stands, in one word for lists. */
  readonly standing: (state: State) => string
}

/**
 * The entries that count: what has been corrected or withdrawn is left out, and of several corrections
 * of one entry the one kept last stands. Given in the order of folding.
 */
export function effectiveEntries<E extends Correctable>(entries: readonly E[]): E[] {
  return foldSteps(entries).flatMap((step) => (step.kind === 'stands' ? [step.entry] : []))
}

/** An entry at its place in the fold: it stands, or it has been taken back, by a correction or for good. */
export type FoldStep<E> =
  | { readonly kind: 'stands'; readonly entry: E }
  | { readonly kind: 'takenBack'; readonly entry: E; readonly instead: EntryId | undefined }

/** What a fold makes of an entry that was taken back, and whether it makes anything of it. */
export interface TakesBack {
  readonly takeBack?: ((state: unknown, taken: TypedKept, instead: EntryId | undefined) => unknown) | undefined
  readonly remembersFirst?: true | undefined
}

/**
 * Whether an entry that was taken back says something: it does not where the fold does not ask, nor as the first that was
 * said of a subject, unless the fold remembers it and what stands instead is about the subject still.
 */
export function isRemembered(
  { takeBack, remembersFirst }: TakesBack,
  isBegun: boolean,
  standsHere: () => boolean,
): boolean {
  return takeBack !== undefined && (isBegun || (remembersFirst === true && standsHere()))
}

/** All entries in the order of folding, each with whether it stands; withdrawals themselves say nothing. */
export function foldSteps<E extends Correctable>(entries: readonly E[]): readonly FoldStep<E>[] {
  const byId = new Map(entries.map((entry) => [entry.id, entry]))
  const rootOf = (entry: E): EntryId => {
    let here = entry
    // A chain of corrections cannot run in a circle, since an entry only names one kept before it;
    // the bound keeps a damaged store from hanging the program.
    for (let steps = 0; here.corrects !== undefined && steps < entries.length; steps += 1) {
      const corrected = byId.get(here.corrects)
      if (corrected === undefined) return here.corrects
      here = corrected
    }
    return here.id
  }
  const roots = new Map<EntryId, EntryId>()
  const standing = new Map<EntryId, E>()
  for (const entry of entries) {
    const root = rootOf(entry)
    roots.set(entry.id, root)
    const rival = standing.get(root)
    if (rival === undefined || supersedes(entry, rival)) standing.set(root, entry)
  }
  return entries
    .filter((entry) => entry.kind !== 'entry-withdrawn')
    .sort(compareForFold)
    .map((entry) => {
      const stands = standing.get(roots.get(entry.id) ?? entry.id)
      if (stands === entry) return { kind: 'stands', entry }
      return { kind: 'takenBack', entry, instead: stands?.kind === 'entry-withdrawn' ? undefined : stands?.id }
    })
}

interface Correctable {
  readonly id: EntryId
  readonly seq: number
  readonly kind: string
  readonly happenedAt: TypedKept['happenedAt']
  readonly corrects?: EntryId | undefined
}

/**
 * A correction beats what it corrects; among corrections the one that was kept last, which was judged with the others
 * in sight. Its id comes from the clock of a workstation, and a clock that runs fast must not win for good.
 */
function supersedes(entry: Correctable, rival: Correctable): boolean {
  if (entry.corrects === undefined) return false
  if (rival.corrects === undefined) return true
  return entry.seq > rival.seq
}
