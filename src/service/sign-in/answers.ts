import type { IdentityAct } from '#journal/identities/identities.ts'
import type { IdentityReason, PatientIdentity } from '#road/people/identity.ts'
import type { Role } from '#road/people/entries.ts'
import type { Proof } from '#road/people/signature.ts'
import type { SubjectId } from '#road/subject.ts'

/** GET /api/me */
export interface MeAnswer {
  /** Whether this record asks for sign-in at all. */
  readonly signIn: 'required' | 'notAsked'
  readonly person: { readonly id: SubjectId<'person'>; readonly name: string; readonly roles: readonly Role[] } | null
  readonly hasPin: boolean
  /** The enrolled tablet. */
  readonly device: { readonly id: string; readonly name: string } | null
  readonly idleMinutes: number
  /** When the session ends, whatever is done; null while nobody is signed in. */
  readonly sessionEndsAt: string | null
  readonly passphraseLeast: number
  readonly pinLeast: number
  /** Whether a passphrase alone signs in at a browser that is no enrolled tablet. */
  readonly passphraseAlone: boolean
}

/** GET /api/accounts: everyone who works here, and what each may sign in with. */
export interface AccountRow {
  readonly person: SubjectId<'person'>
  readonly name: string
  readonly roles: readonly Role[]
  readonly passphrase: boolean
  readonly pin: boolean
  readonly badge: boolean
  readonly codeUntil: string | null
  readonly lockedUntil: string | null
}

/** GET /api/devices */
export interface DeviceRow {
  readonly id: string
  readonly name: string
  readonly enrolledBy: SubjectId<'person'>
  readonly enrolledAt: string
  readonly endedAt: string | null
}

/** GET /api/access */
export interface AccessLine {
  readonly id: string
  readonly at: string
  readonly person: SubjectId<'person'> | null
  readonly what: string
  readonly about: string | null
}

/** GET /api/cases/:case/identity */
export interface IdentityState {
  readonly unitKeeps: boolean
  readonly is: 'none' | 'kept' | 'erased'
  readonly at: string | null
}

/** GET /api/identities/log */
export interface IdentityLogLine {
  readonly id: string
  readonly at: string
  readonly person: SubjectId<'person'> | null
  readonly act: IdentityAct
  readonly case: SubjectId<'case'> | null
  readonly why: IdentityReason
}

/** POST /api/identities/search */
export interface IdentityFound {
  readonly case: SubjectId<'case'>
  readonly identity: PatientIdentity
}

/** GET /api/me/passkeys */
export interface PasskeyRow {
  readonly id: string
  readonly name: string
  readonly host: string
  readonly keptAt: string
  readonly usedAt: string | null
}

/** GET /api/me/sessions */
export interface SessionRow {
  readonly id: string
  readonly how: Proof
  readonly tablet: string | null
  readonly startedAt: string
  readonly seenAt: string
  readonly endsAt: string
  /** It is the one that asks. */
  readonly here: boolean
}
