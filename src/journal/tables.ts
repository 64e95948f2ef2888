import type { Kysely, Transaction } from 'kysely'
import type { EntryId, SiteId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import type { Relation } from '#road/link.ts'
import type { SubjectId, SubjectKind } from '#road/subject.ts'

/*
 * The tables of both engines. `entry` and `attachment` are the record and are only ever added to; so is `seal`.
 * All others are derived from it and can be made again.
 */

export interface EntryRow {
  site: SiteId
  seq: number
  id: EntryId
  kind: string
  happened_at: Instant
  recorded_at: Instant
  corrects: EntryId | null
  /** The text that was hashed. Text, not a JSON column: one that reorders members would break the chain. */
  text: string
  hash: string
}

export interface AttachmentRow {
  digest: string
  media_type: string
  bytes: Uint8Array
}

export interface SealRow {
  site: SiteId
  sealed_at: Instant
  signature: string
  /** The last entry that is sealed. */
  seq: number
  /** Canonical JSON. */
  text: string
}

export interface MetaRow {
  name: string
  value: string
}

export interface HeadRow {
  site: SiteId
  seq: number
  hash: string
  recorded_at: Instant
}

export interface AboutRow {
  site: SiteId
  subject: SubjectId
  happened_at: Instant
  id: EntryId
  seq: number
}

export interface KnownTableRow {
  site: SiteId
  subject: SubjectId
  kind: SubjectKind
  standing: string
  since: Instant
  /** Canonical JSON. */
  state: string
  folded_at: Instant
  folded_id: EntryId
  entries: number
}

export interface LinkRow {
  site: SiteId
  from_subject: SubjectId
  relation: Relation
  to_subject: SubjectId
  at: Instant
  entry: EntryId
}

export interface Tables {
  entry: EntryRow
  attachment: AttachmentRow
  meta: MetaRow
  head: HeadRow
  about: AboutRow
  known: KnownTableRow
  /** Of subjects with many entries: what was known after every so many. */
  milestone: Omit<KnownTableRow, 'kind'>
  link: LinkRow
  /** Made by a step to format 2. */
  seal: SealRow
}

/** Something that queries can be put to: a connection pool or a transaction. */
export type Db = Kysely<Tables>
export type Tx = Transaction<Tables>
