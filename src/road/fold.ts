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
  /** Where the subject stands, in one word for lists. */
  readonly standing: (state: State) => string
}

/**
 * The entries that count: what has been corrected or withdrawn is left out, and of several corrections
 * of one entry the one made last (by its id) stands. Given in the order of folding.
 */
export function effectiveEntries<E extends Correctable>(entries: readonly E[]): E[] {
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
  const standing = new Map<EntryId, E>()
  for (const entry of entries) {
    const root = rootOf(entry)
    const rival = standing.get(root)
    if (rival === undefined || supersedes(entry, rival)) standing.set(root, entry)
  }
  return [...standing.values()].filter((entry) => entry.kind !== 'entry-withdrawn').sort(compareForFold)
}

interface Correctable {
  readonly id: EntryId
  readonly kind: string
  readonly happenedAt: TypedKept['happenedAt']
  readonly corrects?: EntryId | undefined
}

/** A correction beats what it corrects; among corrections the one with the greater id, which was made later. */
function supersedes(entry: Correctable, rival: Correctable): boolean {
  if (entry.corrects === undefined) return false
  if (rival.corrects === undefined) return true
  return entry.id > rival.id
}
