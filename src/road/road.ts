import type { AttachmentDigest } from './attachment.ts'
import type { Problem } from '#units/problem.ts'
import type { EntryKind, LinkSeed } from './kind.ts'
import type { Finding } from './finding.ts'
import type { Fold } from './fold.ts'
import type { Instant } from './instant.ts'
import type { EntryId, KeptEntry, SentEntry } from './entry.ts'
import type { TypedKept, TypedSent } from './kinds.ts'
import type { Look } from './look.ts'
import type { SubjectId, SubjectKind } from './subject.ts'

/** What came of reading the body of an entry. */
export type ReadBody =
  | { readonly kind: 'typed'; readonly entry: TypedSent }
  /** A kind that this version does not know: kept when it comes from a store or an import, refused when sent. */
  | { readonly kind: 'unknownKind' }
  | { readonly kind: 'unusable'; readonly problems: readonly Problem[] }

/** What a body is about, and what it hangs together with. */
export interface About {
  readonly creates: readonly SubjectId[]
  readonly subjects: readonly SubjectId[]
  readonly mentions: readonly SubjectId[]
  readonly links: readonly LinkSeed[]
  readonly files: readonly AttachmentDigest[]
}

/** What the rules say of an entry. A refused entry is always a decision. */
export interface Judged {
  readonly policy: string
  readonly findings: readonly Finding[]
  readonly refused: boolean
}

/** A fold with its state closed over, as the journal uses it: states are plain JSON. */
export interface AnyFold {
  readonly begin: (id: SubjectId) => unknown
  readonly evolve: (state: unknown, entry: TypedKept) => unknown
  readonly takeBack?: (state: unknown, taken: TypedKept, instead: EntryId | undefined) => unknown
  readonly remembersFirst?: true
  readonly standing: (state: unknown) => string
}

/**
 * The domain as the journal sees it. Handed in, so that the journal can be tried with a small
 * road of its own as well as with the real one.
 */
export interface Road {
  /** Changes whenever a fold, a link or a kind changes: a store made under another version is refolded. */
  readonly version: string
  readonly read: (entry: SentEntry) => ReadBody
  readonly about: (entry: TypedSent) => About
  readonly nature: (entry: TypedSent) => EntryKind['nature']
  readonly foldOf: (kind: SubjectKind) => AnyFold
  /** `corrected`: the entry that this one corrects or withdraws. */
  readonly judge: (look: Look, entry: TypedSent, now: Instant, corrected?: KeptEntry) => Promise<Judged>
}

/** Closes a fold over the type of its state. */
export function closeFold<Kind extends SubjectKind, State>(fold: Fold<Kind, State>): AnyFold {
  const { takeBack, remembersFirst } = fold
  return {
    begin: (id) => fold.begin(id as SubjectId<Kind>),
    evolve: (state, entry) => fold.evolve(state as State, entry),
    ...(takeBack === undefined
      ? {}
      : { takeBack: (state, taken, instead) => takeBack(state as State, taken, instead) }),
    ...(remembersFirst === undefined ? {} : { remembersFirst }),
    standing: (state) => fold.standing(state as State),
  }
}
