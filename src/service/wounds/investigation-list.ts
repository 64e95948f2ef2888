import type { Reader } from '#journal/journal.ts'
import type { KnownOf } from '#road/known.ts'
import type { SubjectId, SubjectKind } from '#road/subject.ts'
import { type InvestigationWindow, windowOf } from '#road/wounds/investigation/window.ts'
import { type LineList, readDays, woundContext } from './read-lines.ts'

/** What is needed to read what an investigation is about, also as it was known when it was closed. */
export type InvestigationReader = Pick<Reader, 'known' | 'standing' | 'knownAt' | 'entry'>

type AsKnown = <K extends SubjectKind>(
  subjects: readonly SubjectId<K>[],
) => Promise<ReadonlyMap<SubjectId<K>, KnownOf<K>>>

/** The operations of an investigation, and what it names. */
export interface InvestigationList {
  readonly id: SubjectId<'investigation'>
  readonly window: InvestigationWindow
  readonly wounds: readonly SubjectId<'wound'>[]
  readonly samples: readonly SubjectId<'sample'>[]
  readonly list: LineList
  /** What is known of these, as far as it counts: once it is closed, as it was when that was kept. */
  readonly asKnown: AsKnown
}

/**
 * The operations on the days that an investigation covers, by the limits that were in force when it was opened. While it
 * is open, a wound that is judged later joins; what is said of wounds and samples after it was closed does not.
 */
export async function investigationList(
  reader: InvestigationReader,
  id: SubjectId<'investigation'>,
): Promise<InvestigationList | undefined> {
  const known = (await reader.known([id])).get(id)
  if (known === undefined || known.opened === null) return undefined
  const { opened, closed } = known
  const context = await woundContext(reader, opened.at, opened.at)
  const closing = closed === null ? undefined : (await reader.entry(closed.entry))?.seq
  const asKnown: AsKnown = (subjects) =>
    closing === undefined ? reader.known(subjects) : knownAt(reader, subjects, closing)
  const window = windowOf(opened, known.window, context.dayOf)
  const list = await readDays(reader, context, { ...window, asKnown })
  return { id, window, wounds: opened.wounds, samples: known.samples, list, asKnown }
}

async function knownAt<K extends SubjectKind>(
  reader: InvestigationReader,
  subjects: readonly SubjectId<K>[],
  seq: number,
): Promise<ReadonlyMap<SubjectId<K>, KnownOf<K>>> {
  const states = await Promise.all(subjects.map(async (id) => ({ id, state: await reader.knownAt(id, seq) })))
  return new Map(states.flatMap(({ id, state }) => (state === undefined ? [] : [[id, state] as const])))
}
