import type { EntryId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import type { Proof, SignedAs } from '#road/people/signature.ts'
import type { SubjectId } from '#road/subject.ts'

type Person = SubjectId<'person'>

/** What a person may sign in with. Secrets are hashes; null where the person has none. */
export interface Account {
  readonly person: Person
  readonly passphrase: string | null
  readonly pin: string | null
  readonly badge: string | null
  /** A code by which the person signs in once, and until when. */
  readonly code: { readonly hash: string; readonly until: Instant } | null
  /** Wrong tries in a row since the last right one. */
  readonly failures: number
  readonly lockedUntil: Instant | null
  readonly changedAt: Instant
}

/** A tablet of the unit at which a badge and a PIN are enough. `token` is the hash of what its browser holds. */
export interface Device {
  readonly id: string
  readonly token: string
  readonly name: string
  readonly enrolledBy: Person
  readonly enrolledAt: Instant
  readonly endedAt: Instant | null
}

export interface Session {
  /** The hash of what the browser holds. */
  readonly token: string
  readonly person: Person
  /** The id of the enrolled tablet that it is on. */
  readonly device: string | null
  readonly how: Proof
  readonly startedAt: Instant
  readonly seenAt: Instant
  readonly endedAt: Instant | null
}

/** A key pair of a person, whose private half never leaves the authenticator (W3C Web Authentication). */
export interface Passkey {
  readonly id: string
  readonly person: Person
  /** COSE, in base64url. */
  readonly publicKey: string
  readonly counter: number
  /** The host at which it was made: it counts nowhere else. */
  readonly host: string
  /** As its owner knows it from others. */
  readonly name: string
  readonly keptAt: Instant
  readonly usedAt: Instant | null
}

/** A person's proof for one entry that is about to be sent. */
export interface Confirmation {
  readonly entry: EntryId
  readonly person: Person
  readonly as: SignedAs
  readonly how: Proof
  readonly at: Instant
}

/** One line of the log of who signed in, was turned away, or saw what needs a right of its own. */
export interface Access {
  readonly id: string
  readonly at: Instant
  /** null where it is not known who it was. */
  readonly person: Person | null
  readonly what: string
  readonly about: string | null
}

/**
 * Who may sign in at one site, and who has. It stands beside the record: it may be changed, and it is in no export, so a
 * hash of a passphrase never leaves the store.
 */
export interface Credentials {
  account(person: Person): Promise<Account | undefined>
  accountOfBadge(badge: string): Promise<Account | undefined>
  accounts(): Promise<readonly Account[]>
  /** Writes an account as a whole. */
  keepAccount(account: Account): Promise<void>
  /** Counts a wrong try and gives how many there have been in a row. Two at once count as two. */
  countFailure(person: Person): Promise<number>
  lock(person: Person, until: Instant): Promise<void>

  deviceOf(token: string): Promise<Device | undefined>
  devices(): Promise<readonly Device[]>
  keepDevice(device: Device): Promise<void>
  endDevice(id: string, at: Instant): Promise<void>

  passkey(id: string): Promise<Passkey | undefined>
  passkeysOf(person: Person): Promise<readonly Passkey[]>
  keepPasskey(passkey: Passkey): Promise<void>
  usedPasskey(id: string, counter: number, at: Instant): Promise<void>
  /** Takes one away, or all of a person. Gives whether there was one. */
  endPasskeys(person: Person, id?: string): Promise<boolean>
  /** Remembers by its hash what an authenticator was asked to sign. */
  keepChallenge(digest: string, until: Instant, now: Instant): Promise<void>
  /** Whether it was asked and is not over yet. It counts once. */
  takeChallenge(digest: string, now: Instant): Promise<boolean>

  startSession(session: Session): Promise<void>
  session(token: string): Promise<Session | undefined>
  sawSession(token: string, at: Instant): Promise<void>
  endSession(token: string, at: Instant): Promise<void>
  endSessionsOf(person: Person, at: Instant): Promise<void>
  /** Those that nothing has ended yet, the one begun last first. Time may be up for some of them. */
  sessionsOf(person: Person): Promise<readonly Session[]>
  /** Whether this person had a session on this tablet that had begun between the two, and had not been ended by the later. */
  wasAt(device: string, person: Person, since: Instant, at: Instant): Promise<boolean>

  keepConfirmation(confirmation: Confirmation): Promise<void>
  confirmationsOf(entry: EntryId, since: Instant): Promise<readonly Confirmation[]>

  note(access: Access): Promise<void>
  /** The newest first. */
  accesses(page: { readonly before?: string; readonly limit: number }): Promise<readonly Access[]>
}
