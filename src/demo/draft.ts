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
  readonly exception?: Exception
  readonly files?: readonly DraftFile[]
}

/** An entry before it has its id. */
export type Draft = { [K in KindName]: DraftHead & { readonly kind: K; readonly body: Bodies[K] } }[KindName]

export type DigestOf = (text: string) => AttachmentDigest

export function madeAtOf(draft: Draft): number {
  return Math.round(draft.madeAt ?? draft.at)
}

export function roomOfTheatre(theatre: string): Room {
  return theatre === 'Theatre 2' ? 'Theatre 2' : 'Theatre 1'
}
