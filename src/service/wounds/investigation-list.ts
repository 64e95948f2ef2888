import type { Reader } from '#journal/journal.ts'
import type { EntryId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import type { KnownOf } from '#road/known.ts'
import type { SubjectId } from '#road/subject.ts'
import { type InvestigationWindow, windowOf } from '#road/wounds/investigation/window.ts'
import { type LineList, readDays, type WoundReader, woundContext } from './read-lines.ts'

/** What is needed to read what an investigation is about, also as it was known when it was closed. */
export type InvestigationReader = WoundReader & Pick<Reader, 'asOf' | 'entry'>

/** As it was known when the investigation was closed, which is where its answer stands; or as it is known now. */
export const asKnownChoices = ['closing', 'now'] as const
export type AsKnown = (typeof asKnownChoices)[number]

/** The operations of an investigation, and what it names. */
export interface InvestigationList {
  readonly investigation: KnownOf<'investigation'>
  readonly window: InvestigationWindow
  readonly wounds: readonly SubjectId<'wound'>[]
  readonly samples: readonly SubjectId<'sample'>[]
  readonly list: LineList
  /** The record as far as it counts here: all else of the investigation is read from it. */
  readonly reader: WoundReader
  /** When it was closed; null while it is open. */
  readonly closedAt: Instant | null
}

/**
 * The operations on the days that an investigation covers, by the limits that were in force when it was opened. While it
 * is open, whatever is entered joins; of a closed one all is read as it was known at the closing, unless asked otherwise.
 */
export async function investigationList(
  reader: InvestigationReader,
  id: SubjectId<'investigation'>,
  asKnown: AsKnown,
): Promise<InvestigationList | undefined> {
  const closed = (await reader.known([id])).get(id)?.closed ?? null
  const then = closed === null || asKnown === 'now' ? reader : reader.asOf(await keptAs(reader, closed.entry))
  const investigation = (await then.known([id])).get(id)
  if (investigation === undefined || investigation.opened === null) return undefined
  const { opened, samples } = investigation
  const context = await woundContext(then, opened.at, opened.at)
  const window = windowOf(opened, investigation.window, context.dayOf)
  const list = await readDays(then, context, window)
  return { investigation, window, wounds: opened.wounds, samples, list, reader: then, closedAt: closed?.at ?? null }
}

/** The place in the record of the closing; of one that was corrected, of the first: other words do not move its day. */
async function keptAs(reader: Pick<Reader, 'entry'>, closing: EntryId): Promise<number> {
  const entry = await reader.entry(closing)
  if (entry === undefined) throw new Error(`the closing ${closing} is known, but its entry is not on record`)
  return entry.corrects === undefined ? entry.seq : await keptAs(reader, entry.corrects)
}
