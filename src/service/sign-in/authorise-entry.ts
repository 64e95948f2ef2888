import { type SentEntry, madeAt } from '#road/entry.ts'
import { instant, millis } from '#road/instant.ts'
import type { KindName, TypedSent } from '#road/kinds.ts'
import type { Role } from '#road/people/entries.ts'
import { mayRecord, rightsOfKinds, secondRoles } from '#road/people/rights.ts'
import type { Signature } from '#road/people/signature.ts'
import { signaturesAsked } from '#road/people/signatures-asked.ts'
import { theRoad } from '#road/the-road.ts'
import type { SubjectId } from '#road/subject.ts'
import type { Confirmation, Credentials } from '#journal/credentials/credentials.ts'
import type { Reader } from '#journal/journal.ts'
import type { ApiProblem } from '../api-types.ts'
import { mayNot, notSignedIn, notYours, signatureNeeded } from '../problems.ts'
import { earliestStart } from './session-times.ts'
import type { SignIn } from './sign-in.ts'
import type { SignedIn, Who } from './who.ts'

type Person = SubjectId<'person'>

export type Authorised = { readonly signed: readonly Signature[] } | { readonly problem: ApiProblem }

interface Parts {
  readonly reader: Reader
  readonly signIn: SignIn
  readonly credentials: Credentials
}

/** What is asked of the entries of one request, by who sends them. */
export interface Authorise {
  /** Why this entry may not be recorded by who sends it; undefined when it may. */
  readonly may: (sent: SentEntry, kind: KindName) => Promise<ApiProblem | undefined>
  /** The signatures that go under it, or which are missing. */
  readonly signed: (sent: SentEntry, typed: TypedSent) => Promise<Authorised>
}

/** Whoever may write to the record itself needs no further right; and without sign-in every entry says who made it. */
export const withoutSignIn: Authorise = {
  may: () => Promise.resolve(undefined),
  signed: () => Promise.resolve({ signed: [] }),
}

export function authoriseFor(parts: Parts, who: Who): Authorise {
  switch (who.kind) {
    case 'anyone':
      return withoutSignIn
    case 'nobody':
      return { ...withoutSignIn, may: () => Promise.resolve(notSignedIn()) }
    case 'person':
      return {
        may: (sent, kind) => whyNot(parts, who, sent, kind),
        signed: (sent, typed) => askSignatures(parts, sent, typed),
      }
  }
}

async function whyNot(parts: Parts, who: SignedIn, sent: SentEntry, kind: KindName): Promise<ApiProblem | undefined> {
  // Sent again after a lost answer, perhaps when the next person has begun: the journal says that it is kept.
  if ((await parts.reader.entry(sent.id)) !== undefined) return undefined
  if (!(await wasHere(parts, who, sent))) return notYours(`"${who.person}", who is signed in`, sent.by)
  const roles = sent.by === who.person ? who.roles : await rolesOf(parts, sent.by)
  const withdrawn = sent.corrects === undefined ? undefined : (await parts.reader.entry(sent.corrects))?.kind
  // A kind that the record has kept is one that this version knows.
  if (mayRecord(roles, kind, withdrawn as KindName | undefined)) return undefined
  return mayNot(rightsOfKinds[kind].join(' or ') || 'the program itself', roles.join(', '))
}

/** How long a signature waits for its entry. */
const signatureMinutes = 15

/**
 * An entry is in the name of whoever is signed in; or of somebody who was signed in at this tablet when it was made, and
 * whose entry waited for the network while the next person began.
 */
async function wasHere({ credentials, signIn }: Parts, who: SignedIn, sent: SentEntry): Promise<boolean> {
  if (sent.by === who.person) return true
  if (who.device === undefined) return false
  const at = madeAt(sent.id)
  // A session that nobody has ended is over by itself all the same.
  return await credentials.wasAt(who.device.id, sent.by, earliestStart(at, await signIn.policy()), at)
}

async function rolesOf({ reader }: Parts, person: Person): Promise<readonly Role[]> {
  return (await reader.known([person])).get(person)?.roles ?? []
}

async function askSignatures(parts: Parts, sent: SentEntry, typed: TypedSent): Promise<Authorised> {
  // Kept already: no second signature is asked for.
  if ((await parts.reader.entry(sent.id)) !== undefined) return { signed: [] }
  const asked = signaturesAsked(await parts.signIn.policy(), sent, theRoad.nature(typed))
  if (!asked.author && asked.second === 'none') return { signed: [] }
  const given = await parts.credentials.confirmationsOf(sent.id, oldestFor(sent))
  const author = given.find(({ as, person }) => as === 'author' && person === sent.by)
  const second = await secondOf(parts, sent, given, asked.second)
  const missing = [
    ...(asked.author && author === undefined
      ? [{ field: 'author', wanted: `the signature of ${sent.by}`, current: 'missing' }]
      : []),
    ...(asked.second !== 'none' && second === undefined
      ? [{ field: 'second', wanted: secondWanted(asked.second, sent.by), current: secondGiven(given) }]
      : []),
  ]
  if (missing.length > 0) return { problem: signatureNeeded(missing) }
  return { signed: [...(author === undefined ? [] : [signatureOf(author)]), ...(second ? [second] : [])] }
}

/** Signatures are made after the entry that they sign, and not long before it is sent. */
function oldestFor(sent: SentEntry): ReturnType<typeof instant> {
  return instant(millis(madeAt(sent.id)) - signatureMinutes * 60_000)
}

/** The second signature; where nobody else of the unit could give it, the author's own with that said. */
async function secondOf(
  parts: Parts,
  sent: SentEntry,
  given: readonly Confirmation[],
  asked: 'none' | 'anyone' | Person,
): Promise<Signature | undefined> {
  if (asked === 'none') return undefined
  for (const each of given) {
    if (each.as !== 'second' || each.person === sent.by) continue
    if (asked === 'anyone' ? isSecond(await rolesOf(parts, each.person)) : each.person === asked)
      return signatureOf(each)
  }
  const own = given.find(({ as, person }) => as === 'author' && person === sent.by)
  const mayStandAlone = asked === 'anyone' || asked === sent.by
  if (own === undefined || !mayStandAlone || (await othersWhoCould(parts, sent.by)) > 0) return undefined
  return { ...signatureOf(own), as: 'second', alone: true }
}

async function othersWhoCould({ reader, credentials }: Parts, author: Person): Promise<number> {
  const [people, accounts] = await Promise.all([reader.standing('person', ['active']), credentials.accounts()])
  const able = new Set(accounts.filter(({ passphrase }) => passphrase !== null).map(({ person }) => person))
  return people.filter(({ id, roles }) => id !== author && able.has(id) && isSecond(roles)).length
}

function isSecond(roles: readonly Role[]): boolean {
  return roles.some((role) => secondRoles.includes(role))
}

function signatureOf({ person, as, how, at }: Confirmation): Signature {
  return { person, as, how, at }
}

function secondWanted(asked: 'anyone' | Person, author: Person): string {
  return asked === 'anyone' || asked === author
    ? `the signature of another person than ${author}: ${secondRoles.join(', ')}`
    : `the signature of ${asked}, who allows the exception`
}

function secondGiven(given: readonly Confirmation[]): string {
  const seconds = given.filter(({ as }) => as === 'second').map(({ person }) => person)
  return seconds.length === 0 ? 'missing' : `that of ${seconds.join(', ')}`
}
