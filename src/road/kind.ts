import type { z } from 'zod'
import type { AttachmentDigest } from './attachment.ts'
import type { Relation } from './link.ts'
import type { SubjectId } from './subject.ts'

export const stages = [
  'unit',
  'people',
  'catalogue',
  'cleaning',
  'packing',
  'sterilising',
  'baths',
  'consumables',
  'storing',
  'operating',
  'wounds',
  'tracing',
] as const
export type Stage = (typeof stages)[number]

/** One end of a link as an entry's body gives it. */
export interface LinkSeed {
  readonly from: SubjectId
  readonly relation: Relation
  readonly to: SubjectId
}

/**
 * One kind of entry: what may be recorded. A `fact` is always kept, whatever the rules find.
 * A `decision` is judged first and may be refused.
 */
export interface EntryKind<Kind extends string = string, Body = never> {
  readonly kind: Kind
  readonly stage: Stage
  readonly nature: 'fact' | 'decision'
  /** What it says, in words for a screen. */
  readonly title: string
  readonly body: z.ZodType<Body>
  /** What an entry that is in the record already may say, where older versions took more: it is read, never sent anew. */
  readonly keptBody?: z.ZodType<Body>
  /** Subjects that this entry may bring into being. All others in the body must be known already. */
  readonly creates: (body: Body) => readonly SubjectId[]
  /**
   * All subjects whose fold reads this entry, those created included. The first is the one it is mainly about.
   * A correction is also about whatever the corrected entry was about; the journal adds those.
   */
  readonly subjects: (body: Body) => readonly SubjectId[]
  /** Further subjects that the body names and that must exist, though their fold does not read the entry. */
  readonly mentions?: (body: Body) => readonly SubjectId[]
  readonly links?: (body: Body) => readonly LinkSeed[]
  /** Kept files that the body names: the entry says what was read from them. */
  readonly files?: (body: Body) => readonly AttachmentDigest[]
}

/** Keeps the literal kind and the body's type together while a kind is being defined. */
export function defineKind<const Kind extends string, Body>(kind: EntryKind<Kind, Body>): EntryKind<Kind, Body> {
  return Object.freeze(kind)
}
