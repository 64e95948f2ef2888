import type { AttachmentDigest } from '#road/attachment.ts'
import type { EntryId, KeptEntry, SentEntry, SiteId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import type { KnownOf } from '#road/known.ts'
import type { Look } from '#road/look.ts'
import type { Signature } from '#road/people/signature.ts'
import type { SubjectId, SubjectKind } from '#road/subject.ts'
import type { Credentials } from './credentials/credentials.ts'
import type { Alone, Elsewhere, Standby } from './engine.ts'
import type { Moved } from './move/moved.ts'
import type { Identities } from './identities/identities.ts'
import type { Seal, SealCheck, SealKey } from './seal/seal.ts'
import type { DryOutcome, ImportOutcome, Outcome } from './outcome.ts'

/** The last entry of a site's chain. */
export interface Head {
  readonly seq: number
  readonly hash: string
  readonly recordedAt: Instant
}

/** A subject as lists show it. */
export interface KnownRow<K extends SubjectKind = SubjectKind> {
  readonly subject: SubjectId<K>
  readonly standing: string
  /** When it came to this standing. */
  readonly since: Instant
  readonly known: KnownOf<K>
}

export interface KnownQuery {
  readonly standings?: readonly string[]
  readonly limit: number
  /** The row after which to go on: the last one of the page before. */
  readonly after?: Pick<KnownRow, 'since' | 'subject'>
  readonly order?: 'oldestFirst' | 'newestFirst'
}

export interface Attachment {
  readonly digest: AttachmentDigest
  readonly mediaType: string
  readonly bytes: Uint8Array
}

/** All that may be asked of one site's record. It has no way to write. */
export interface Reader extends Look {
  readonly site: SiteId
  /** undefined while the site has no entry. */
  head(): Promise<Head | undefined>
  entry(id: EntryId): Promise<KeptEntry | undefined>
  /** Entries in the order of the chain. */
  entries(page: { readonly afterSeq: number; readonly limit: number }): Promise<readonly KeptEntry[]>
  /** All entries about a subject in the order of folding, corrected and correcting ones included. */
  entriesAbout(subject: SubjectId, page?: { readonly upToSeq?: number }): Promise<readonly KeptEntry[]>
  knownOfKind<K extends SubjectKind>(kind: K, query: KnownQuery): Promise<readonly KnownRow<K>[]>
  /** The record as it stood when the entry `seq` had just been kept: the same folds over the entries until then. */
  asOf(seq: number): Pick<Look, 'known' | 'standing'>
  attachment(digest: AttachmentDigest): Promise<Attachment | undefined>
}

/** What a commit brought. */
export interface Kept {
  readonly site: SiteId
  readonly entries: readonly KeptEntry[]
  readonly changed: readonly SubjectId[]
}

/**
 * What a program keeps beside the record, to go on where it was cut short. It is no part of the record: no export holds
 * it, and it may be overwritten.
 */
export interface Notes {
  read(name: string): Promise<string | undefined>
  write(name: string, text: string): Promise<void>
  clear(name: string): Promise<void>
}

/** The signatures under entries that are sent together, by the id of the entry. */
export type Signatures = ReadonlyMap<EntryId, readonly Signature[]>

/** The record: entries are added to it and never changed. */
export interface Journal extends AsyncDisposable {
  read(site: SiteId): Reader
  sites(): Promise<readonly SiteId[]>
  append(sent: SentEntry, signed?: readonly Signature[]): Promise<Outcome>
  /** Appends in this order, sharing commits. One outcome for each, in the same order. `signed`: the signatures by entry. */
  appendMany(sent: readonly SentEntry[], signed?: Signatures): Promise<readonly Outcome[]>
  judge(sent: SentEntry): Promise<DryOutcome>
  /** Keeps the bytes of a file; the same bytes again change nothing. */
  attach(bytes: Uint8Array, mediaType: string): Promise<AttachmentDigest>
  /** Takes over lines of an export, all or nothing. Those that only a backup has are refused. */
  importLines(lines: AsyncIterable<string>): Promise<ImportOutcome>
  /** The lines of an export: everything that is needed to make this store again. */
  exportLines(): AsyncIterable<string>
  /** Makes all that is derived anew from the entries; gives their number. */
  refold(): Promise<number>
  /** Seals the record of a site up to its last entry; undefined while it has none. */
  seal(site: SiteId, key: SealKey): Promise<Seal | undefined>
  /** The seals of a site, the newest first. */
  seals(site: SiteId, limit: number): Promise<readonly Seal[]>
  /** Holds the record against a seal, which may be one that was kept elsewhere. */
  checkSeal(seal: Seal): Promise<SealCheck>
  readonly notes: Notes
  /** Where the record of a site goes on, when it was moved away from this store. */
  movedAway(site: SiteId): Promise<Moved | undefined>
  /** Who may sign in at a site, and who has: beside the record, not in it. */
  credentials(site: SiteId): Credentials
  /** Who the patients of a site are: beside the record, encrypted. */
  identities(site: SiteId): Identities
  /** Calls back after each commit. Gives the function that ends it. */
  subscribe(listener: (kept: Kept) => void): () => void
  /** Calls back when another process on this store may have kept something. */
  readonly elsewhere: Pick<Elsewhere, 'hear' | 'isHearing'>
  /** Does a job unless another process on this store is doing it. */
  alone<T>(job: string, work: () => Promise<T>): Promise<Alone<T>>
  /** Whether another server has what is acknowledged. */
  standby(): Promise<Standby>
  close(): Promise<void>
}
