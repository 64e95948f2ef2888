import type { AttachmentDigest } from '#road/attachment.ts'
import type { Exception } from '#road/entry.ts'
import type { Bodies, KindName } from '#road/kinds.ts'
import type { PersonId } from './people.ts'

/** A file that an entry names by its digest; it goes before the entry. */
export interface DraftFile {
  readonly text: string
  readonly mediaType: string
}

export type Room =
  | 'Theatre 1'
  | 'Theatre 2'
  | 'Wash room'
  | 'Packing'
  | 'Steriliser room'
  | 'Store'
  | 'Ward office'
  | 'Unit office'

interface DraftHead {
  /** When it happened, in milliseconds since 1970. */
  readonly at: number
  /** When it was entered, where that was later. */
  readonly madeAt?: number
  readonly by: PersonId
  readonly room: Room
  /** A name by which a later draft may correct this one. */
  readonly name?: string
  readonly corrects?: string
  /** The name of the draft that states the hypothesis of which this is the result. */
  readonly tests?: string
  readonly exception?: Exception
  readonly files?: readonly DraftFile[]
}

/** The result of a test names its hypothesis when that has its id. */
type DraftBody<K extends KindName> = K extends 'hypothesis-tested' ? Omit<Bodies[K], 'hypothesis'> : Bodies[K]

/** An entry before it has its id. */
export type Draft = { [K in KindName]: DraftHead & { readonly kind: K; readonly body: DraftBody<K> } }[KindName]

export type DigestOf = (text: string) => AttachmentDigest

export function madeAtOf(draft: Draft): number {
  return Math.round(draft.madeAt ?? draft.at)
}

export function roomOfTheatre(theatre: string): Room {
  return theatre === 'Theatre 2' ? 'Theatre 2' : 'Theatre 1'
}
