import { v7 } from 'uuid'
import type { EntryId, SiteId } from '#road/entry.ts'
import { unitPolicy } from '#road/gather.ts'
import { type Instant, instant, millis } from '#road/instant.ts'
import { lockMinutes, triesBeforeLock } from '#road/people/limits.ts'
import type { Proof, SignedAs } from '#road/people/signature.ts'
import { type Policy, policyFrom } from '#road/policy.ts'
import type { SubjectId } from '#road/subject.ts'
import type { Account, Credentials, Device } from '#journal/credentials/credentials.ts'
import type { Reader } from '#journal/journal.ts'
import { type OwnSessions, ownSessions } from './own-sessions.ts'
import type { Address, PasskeyProof, Passkeys } from './passkeys.ts'
import { digestOf, hashSecret, isSecret, newCode, newToken, readCode } from './secrets.ts'
import { lastMoment } from './session-times.ts'
import type { SignedIn, Who } from './who.ts'

type Person = SubjectId<'person'>

/** What a browser brings: the cookies, as they came. */
export interface Brought {
  readonly session: string | undefined
  readonly device: string | undefined
  readonly address: Address
}

/** How somebody proves who they are. A PIN counts at an enrolled tablet only, since it is short. */
export type Proving =
  | { readonly by: 'passphrase'; readonly name: string; readonly passphrase: string }
  | { readonly by: 'badge'; readonly badge: string; readonly pin: string }
  | { readonly by: 'pin'; readonly person: Person; readonly pin: string }
  | { readonly by: 'passkey'; readonly response: PasskeyProof }
  /** The code of a new person, and the passphrase that they choose. */
  | { readonly by: 'code'; readonly code: string; readonly passphrase: string }

export interface SignIn extends OwnSessions {
  who(brought: Brought): Promise<Who>
  /** The session that begins, and what the browser is to hold; null when the proof is wrong or the account is locked. */
  begin(proving: Proving, brought: Brought): Promise<{ readonly token: string; readonly person: Person } | null>
  end(brought: Brought): Promise<void>
  /** The person did something: the time without doing anything begins anew. */
  active(signedIn: SignedIn): Promise<void>
  /** Proves for one entry that it is signed. */
  sign(proving: Proving, brought: Brought, entry: EntryId, as: SignedAs): Promise<Person | null>
  /** A code by which a person signs in once, to choose a passphrase. What the person had before ends. */
  giveCode(person: Person, by: Person | null): Promise<{ readonly code: string; readonly until: Instant }>
  close(person: Person, by: Person): Promise<void>
  setSecrets(
    person: Person,
    secrets: { readonly passphrase?: string; readonly pin?: string; readonly badge?: string },
  ): Promise<'set' | 'badgeTaken'>
  /** A wrong one counts, and locks, as it does at the door. */
  isPassphraseOf(person: Person, passphrase: string): Promise<boolean>
  /** Ends all sessions of a person and begins one in place of the one that asks; gives what the browser is to hold. */
  signInAnew(signedIn: SignedIn): Promise<string>
  /** The session of whoever enrols it goes on there, as one at that tablet. */
  enrol(
    name: string,
    by: SignedIn,
  ): Promise<{ readonly token: string; readonly session: string; readonly device: Device }>
  endDevice(id: string, by: Person): Promise<void>
  /** Tells when this process has ended sessions; gives the function that stops it. Other processes end them unheard. */
  onEnded(listener: () => void): () => void
  note(person: Person | null, what: string, about?: string): Promise<void>
  policy(): Promise<Policy>
}

interface Parts {
  readonly credentials: Credentials
  readonly reader: Reader
  readonly passkeys: Passkeys
  readonly site: SiteId
  readonly now: () => Instant
  /** Whether the record at hand asks for sign-in: a demonstration does not. */
  readonly isRequired: () => Promise<boolean>
}

const codeHours = 72
/** How often the time of the last activity is written. */
const seenEveryMilliseconds = 20_000

export function signInAt(parts: Parts): SignIn {
  const { reader, now, site, passkeys } = parts
  const { credentials, onEnded } = toldOfEnds(parts.credentials)
  const policy = async (): Promise<Policy> => policyFrom((await reader.known([unitPolicy])).get(unitPolicy))
  const deviceOf = async (token: string | undefined): Promise<Device | undefined> =>
    token === undefined ? undefined : await credentials.deviceOf(digestOf('device', token))
  const note = (person: Person | null, what: string, about?: string): Promise<void> =>
    credentials.note({ id: v7(), at: now(), person, what, about: about ?? null })

  /** The account and the kind of proof when it holds; counts and locks when it does not. */
  const prove = async (
    proving: Proving,
    device: Device | undefined,
    { address }: Pick<Brought, 'address'>,
  ): Promise<Proven | null> => {
    const account = await accountFor(parts, proving)
    const { secret, hash, how } = heldAgainst(proving, account, device)
    const locked = isLocked(account, now())
    // Worked out in every case, so that the time taken tells nothing of the account. A code has found its account by itself.
    const holds =
      proving.by === 'passkey' ? await passkeys.proves(proving.response, address) : await isSecret(secret, hash)
    const inTime = how === 'code' && (account?.code?.until ?? now()) > now()
    const right = (holds || inTime) && !locked
    if (account === undefined || !(await isHere(reader, account.person))) {
      await note(null, 'turned away', how)
      return null
    }
    if (!right) {
      await countWrong(parts, account, { locked, limits: await policy(), how, note })
      return null
    }
    return { account, how }
  }

  const start = async (person: Person, how: Proof, device: Device | undefined): Promise<string> => {
    const token = newToken()
    const at = now()
    await credentials.startSession({
      token: digestOf('session', token),
      person,
      device: device?.id ?? null,
      how,
      startedAt: at,
      seenAt: at,
      endedAt: null,
    })
    await note(person, 'signed in', device === undefined ? how : `${how} at ${device.name}`)
    return token
  }

  const end = async (token: string | undefined): Promise<void> => {
    if (token !== undefined) await credentials.endSession(digestOf('session', token), now())
  }

  return {
    policy,
    onEnded,
    note,
    ...ownSessions({ credentials, policy, now, note }),
    async who(brought) {
      if (!(await parts.isRequired())) return { kind: 'anyone' }
      const [device, session] = await Promise.all([
        deviceOf(brought.device),
        brought.session === undefined ? undefined : credentials.session(digestOf('session', brought.session)),
      ])
      if (session === undefined || session.endedAt !== null) return { kind: 'nobody', device }
      const person = (await reader.known([session.person])).get(session.person)
      const last = lastMoment(session, await policy())
      if (last < now() || person === undefined || person.left) {
        await credentials.endSession(session.token, last < now() ? last : now())
        return { kind: 'nobody', device }
      }
      return { kind: 'person', person: session.person, name: person.name, roles: person.roles, session, device }
    },

    async begin(proving, brought) {
      const device = await deviceOf(brought.device)
      const proven = await prove(proving, device, brought)
      if (proven === null) return null
      const { account, how } = proven
      const passphrase = proving.by === 'code' ? await hashSecret(proving.passphrase) : account.passphrase
      const code = proving.by === 'code' ? null : account.code
      if (account.failures > 0 || account.lockedUntil !== null || proving.by === 'code')
        await credentials.keepAccount({ ...account, passphrase, code, failures: 0, lockedUntil: null })
      await end(brought.session)
      return { token: await start(account.person, how, device), person: account.person }
    },

    end: (brought) => end(brought.session),

    async active({ session }) {
      if (millis(now()) - millis(session.seenAt) >= seenEveryMilliseconds)
        await credentials.sawSession(session.token, now())
    },

    async sign(proving, brought, entry, as) {
      const proven = await prove(proving, await deviceOf(brought.device), brought)
      if (proven === null) return null
      const { account, how } = proven
      if (account.failures > 0) await credentials.keepAccount({ ...account, failures: 0, lockedUntil: null })
      await credentials.keepConfirmation({ entry, person: account.person, as, how, at: now() })
      return account.person
    },

    async giveCode(person, by) {
      const code = newCode()
      const until = instant(millis(now()) + codeHours * 3_600_000)
      const before = (await credentials.account(person)) ?? emptyAccount(person, now())
      await credentials.endSessionsOf(person, now())
      await credentials.endPasskeys(person)
      await credentials.keepAccount({
        ...before,
        passphrase: null,
        pin: null,
        code: { hash: digestOf('code', readCode(code)), until },
        failures: 0,
        lockedUntil: null,
        changedAt: now(),
      })
      await note(by, 'gave a one-time code', person)
      return { code, until }
    },

    async close(person, by) {
      await credentials.endSessionsOf(person, now())
      await credentials.endPasskeys(person)
      await credentials.keepAccount(emptyAccount(person, now()))
      await note(by, 'closed an account', person)
    },

    async setSecrets(person, { passphrase, pin, badge }) {
      const before = (await credentials.account(person)) ?? emptyAccount(person, now())
      const digest = badge === undefined ? before.badge : digestOf('badge', `${site}\n${badge}`)
      const holder = digest === null ? undefined : await credentials.accountOfBadge(digest)
      if (holder !== undefined && holder.person !== person) return 'badgeTaken'
      await credentials.keepAccount({
        ...before,
        passphrase: passphrase === undefined ? before.passphrase : await hashSecret(passphrase),
        pin: pin === undefined ? before.pin : await hashSecret(pin),
        badge: digest,
        changedAt: now(),
      })
      const what = [passphrase && 'passphrase', pin && 'PIN', badge && 'badge'].filter(Boolean).join(', ')
      await note(person, 'changed', what)
      return 'set'
    },

    async isPassphraseOf(person, passphrase) {
      const account = await credentials.account(person)
      const locked = isLocked(account, now())
      const holds = await isSecret(passphrase, account?.passphrase ?? null)
      if (account === undefined) return false
      if (holds && !locked) return true
      await countWrong(parts, account, { locked, limits: await policy(), how: 'passphrase', note })
      return false
    },

    async signInAnew({ person, session, device }) {
      await credentials.endSessionsOf(person, now())
      return await start(person, session.how, device)
    },

    async enrol(name, by) {
      const token = newToken()
      const device: Device = {
        id: v7(),
        token: digestOf('device', token),
        name,
        enrolledBy: by.person,
        enrolledAt: now(),
        endedAt: null,
      }
      await credentials.keepDevice(device)
      await note(by.person, 'enrolled a tablet', name)
      await credentials.endSession(by.session.token, now())
      return { token, device, session: await start(by.person, by.session.how, device) }
    },

    async endDevice(id, by) {
      await credentials.endDevice(id, now())
      await note(by, 'ended a tablet', id)
    },
  }
}

/** The credentials, which tell of every end of sessions that goes through them. */
function toldOfEnds(credentials: Credentials): { readonly credentials: Credentials } & Pick<SignIn, 'onEnded'> {
  const listeners = new Set<() => void>()
  const tell = (): void => {
    for (const listener of listeners) listener()
  }
  return {
    credentials: {
      ...credentials,
      endSession: (token, at) => credentials.endSession(token, at).then(tell),
      endSessionsOf: (person, at) => credentials.endSessionsOf(person, at).then(tell),
      endDevice: (id, at) => credentials.endDevice(id, at).then(tell),
    },
    onEnded(listener) {
      listeners.add(listener)
      return () => void listeners.delete(listener)
    },
  }
}

interface Proven {
  readonly account: Account
  readonly how: Proof
}

async function accountFor(
  { credentials, reader, site, passkeys }: Parts,
  proving: Proving,
): Promise<Account | undefined> {
  switch (proving.by) {
    case 'pin':
      return await credentials.account(proving.person)
    case 'passkey': {
      const owner = await passkeys.ownerOf(proving.response)
      return owner && (await credentials.account(owner))
    }
    case 'badge':
      return await credentials.accountOfBadge(digestOf('badge', `${site}\n${proving.badge}`))
    case 'code': {
      const digest = digestOf('code', readCode(proving.code))
      return (await credentials.accounts()).find(({ code }) => code?.hash === digest)
    }
    case 'passphrase':
      return await accountNamed(credentials, reader, proving.name)
  }
}

/** By the key of the person, or by the name, whatever letters are large. A name that two persons share is nobody's. */
async function accountNamed(credentials: Credentials, reader: Reader, name: string): Promise<Account | undefined> {
  const wanted = plain(name)
  const people = await reader.standing('person', ['active'])
  const keyed = people.find(({ id }) => id === `person:${wanted}`)
  const named = people.filter((person) => plain(person.name) === wanted)
  const found = keyed ?? (named.length === 1 ? named[0] : undefined)
  return found === undefined ? undefined : await credentials.account(found.id)
}

function plain(name: string): string {
  return name.normalize('NFKC').trim().toLowerCase().replaceAll(/\s+/g, ' ')
}

interface HeldAgainst {
  readonly secret: string
  readonly hash: string | null
  readonly how: Proof
}

function heldAgainst(proving: Proving, account: Account | undefined, device: Device | undefined): HeldAgainst {
  switch (proving.by) {
    case 'passphrase':
      return { secret: proving.passphrase, hash: account?.passphrase ?? null, how: 'passphrase' }
    case 'badge':
    case 'pin':
      return { secret: proving.pin, hash: device === undefined ? null : (account?.pin ?? null), how: 'pin' }
    case 'code':
    case 'passkey':
      return { secret: '', hash: null, how: proving.by }
  }
}

function isLocked(account: Account | undefined, at: Instant): boolean {
  return account !== undefined && account.lockedUntil !== null && account.lockedUntil > at
}

interface Wrong {
  readonly locked: boolean
  readonly limits: Policy
  readonly how: Proof
  readonly note: SignIn['note']
}

async function countWrong(
  { credentials, now }: Parts,
  { person }: Account,
  { locked, limits, how, note }: Wrong,
): Promise<void> {
  await note(person, locked ? 'turned away while locked' : 'turned away', how)
  if (locked) return
  const failures = await credentials.countFailure(person)
  if (failures < limits.limit(triesBeforeLock).value) return
  const minutes = limits.limit(lockMinutes).value
  await credentials.lock(person, instant(millis(now()) + minutes * 60_000))
  await note(person, 'locked', `${minutes} minutes`)
}

async function isHere(reader: Reader, person: Person): Promise<boolean> {
  const known = (await reader.known([person])).get(person)
  return known !== undefined && !known.left
}

function emptyAccount(person: Person, at: Instant): Account {
  return {
    person,
    passphrase: null,
    pin: null,
    badge: null,
    code: null,
    failures: 0,
    lockedUntil: null,
    changedAt: at,
  }
}
