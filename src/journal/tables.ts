import type { Kysely, Transaction } from 'kysely'
import type { EntryId, SiteId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import type { Relation } from '#road/link.ts'
import type { Proof, SignedAs } from '#road/people/signature.ts'
import type { SubjectId, SubjectKind } from '#road/subject.ts'
import type { IdentityAct } from './identities/identities.ts'

/*
 * The tables of both engines. `entry` and `attachment` are the record and are only ever added to; so is `seal`.
 * `account`, `device`, `session`, `confirmation`, `passkey`, `challenge` and `access` say who may sign in and who has: no part of
 * the record, in no export and no lines of a backup (a backup of SQLite is its file, and a restore leaves them out). `identity` and
 * `identity_access` say who the patients are and who looked, `moved` which sites go on elsewhere: a backup holds them, the
 * identities still encrypted, and an export does not. `meta` tells the format and keeps notes of the program. All others are
 * derived from the record and can be made again.
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

/** PostgreSQL alone: the ids of all sites, which a table in partitions cannot hold unique. */
export interface EntryIdRow {
  id: EntryId
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

export interface AccountRow {
  site: SiteId
  person: SubjectId<'person'>
  /** Secrets are kept as hashes only. */
  passphrase: string | null
  pin: string | null
  badge: string | null
  /** A code by which the person signs in once, to choose a passphrase. */
  code: string | null
  code_until: Instant | null
  failures: number
  locked_until: Instant | null
  changed_at: Instant
}

export interface DeviceRow {
  site: SiteId
  id: string
  /** The hash of what the browser of the tablet holds. */
  token: string
  name: string
  enrolled_by: SubjectId<'person'>
  enrolled_at: Instant
  ended_at: Instant | null
}

export interface SessionRow {
  site: SiteId
  token: string
  person: SubjectId<'person'>
  /** The id of an enrolled tablet. */
  device: string | null
  how: Proof
  started_at: Instant
  seen_at: Instant
  ended_at: Instant | null
}

export interface ConfirmationRow {
  site: SiteId
  entry: EntryId
  person: SubjectId<'person'>
  signed_as: SignedAs
  how: Proof
  at: Instant
}

export interface AccessRow {
  site: SiteId
  id: string
  at: Instant
  person: SubjectId<'person'> | null
  what: string
  about: string | null
}

export interface PasskeyRow {
  site: SiteId
  /** As the authenticator named it. */
  id: string
  person: SubjectId<'person'>
  /** COSE, in base64url. */
  public_key: string
  /** How often it was used, where the authenticator counts. */
  counter: number
  /** The host at which it was made, and counts. */
  host: string
  name: string
  kept_at: Instant
  used_at: Instant | null
}

export interface ChallengeRow {
  site: SiteId
  /** The hash of what an authenticator is to sign. */
  digest: string
  until: Instant
}

/** A site whose record goes on in another store. */
export interface MovedRow {
  site: SiteId
  at: Instant
  /** Where, in words for a person: no address, which may hold a password. */
  goes_on: string
}

export interface IdentityRow {
  site: SiteId
  case_id: SubjectId<'case'>
  /** Encrypted; null when it was erased. */
  sealed: Uint8Array | null
  kept_by: SubjectId<'person'> | null
  kept_at: Instant
}

export interface IdentityAccessRow {
  site: SiteId
  id: string
  at: Instant
  person: SubjectId<'person'> | null
  act: IdentityAct
  case_id: SubjectId<'case'> | null
  why: string
}

export interface Tables {
  account: AccountRow
  device: DeviceRow
  session: SessionRow
  confirmation: ConfirmationRow
  access: AccessRow
  passkey: PasskeyRow
  challenge: ChallengeRow
  identity: IdentityRow
  identity_access: IdentityAccessRow
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
  moved: MovedRow
  entry_id: EntryIdRow
}

/** Something that queries can be put to: a connection pool or a transaction. */
export type Db = Kysely<Tables>
export type Tx = Transaction<Tables>
