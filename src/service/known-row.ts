import { bathsInDoubt, immersionsInDoubt } from '#road/baths/baths-in-doubt.ts'
import type { KeptEntry } from '#road/entry.ts'
import { type KnownOf, folds } from '#road/known.ts'
import type { Instant } from '#road/instant.ts'
import { type Doubt, packsInDoubt } from '#road/storing/packs-in-doubt.ts'
import { type SubjectId, type SubjectKind, isSubjectOf, subjectKind } from '#road/subject.ts'
import { theRoad } from '#road/the-road.ts'
import { foldAll } from '#journal/folding.ts'
import type { KnownRow as JournalRow, Reader } from '#journal/journal.ts'
import { listedLoad } from '#road/sterilising/listed-load.ts'
import type { KnownRow, ListedRow } from './api-types.ts'

export function rowOf<K extends SubjectKind>(kind: K, row: JournalRow<K>): KnownRow<K> {
  return { subject: row.subject, kind, standing: row.standing, since: row.since, state: row.known }
}

/** A row without what only the page of its subject shows. */
export function listedRow<K extends SubjectKind>(row: KnownRow<K>): ListedRow<K> {
  const state = row.kind === 'load' ? listedLoad(row.state as KnownOf<'load'>) : row.state
  return { ...row, state } as ListedRow<K>
}

/** Adds to packs that wait for use, and to baths and their immersions, what speaks against them now; others are given as they are. */
export async function withDoubts<K extends SubjectKind>(
  reader: Reader,
  rows: readonly KnownRow<K>[],
  now: Instant,
): Promise<readonly KnownRow<K>[]> {
  const of = <Kind extends 'round' | 'bath' | 'immersion'>(kind: Kind) =>
    rows.flatMap((row) => (isSubjectOf(kind, row.subject) ? [row.state as unknown as KnownOf<Kind>] : []))
  const doubts = new Map<SubjectId, readonly Doubt[]>([
    ...(await packsInDoubt(reader, of('round'), now)),
    ...(await bathsInDoubt(reader, of('bath'), now)),
    ...(await immersionsInDoubt(reader, of('immersion'), now)),
  ])
  return rows.map((row) => {
    const against = doubts.get(row.subject)
    return against === undefined ? row : { ...row, doubts: against }
  })
}

/** A subject as it stands, or as it stood when the entry `atSeq` had just been kept. */
export async function readRow<K extends SubjectKind>(
  reader: Reader,
  subject: SubjectId<K>,
  atSeq?: number,
): Promise<KnownRow<K> | undefined> {
  const kind = subjectKind(subject)
  if (atSeq === undefined && fewWithManyEntries.has(kind)) {
    const rows = await reader.knownOfKind(kind, { limit: mostOfFew })
    const found = rows.find((row) => row.subject === subject)
    if (found !== undefined) return rowOf(kind, found)
  }
  return foldedRow(subject, await reader.entriesAbout(subject, atSeq === undefined ? {} : { upToSeq: atSeq }))
}

/**
 * Kinds of which a unit has few, each with thousands of entries: there the stored rows are quicker to look through
 * than the entries are to fold.
 */
const fewWithManyEntries: ReadonlySet<SubjectKind> = new Set(['machine', 'set', 'policy', 'unit'])
const mostOfFew = 200

function foldedRow<K extends SubjectKind>(
  subject: SubjectId<K>,
  entries: readonly KeptEntry[],
): KnownRow<K> | undefined {
  const record = foldAll(theRoad, subject, { entries })
  if (record === undefined) return undefined
  const state = record.state as KnownOf<K>
  return { subject, kind: subjectKind(subject), standing: record.standing, since: record.since, state }
}

export function standingOf<K extends SubjectKind>(kind: K, state: KnownOf<K>): string {
  return folds[kind].standing(state)
}
