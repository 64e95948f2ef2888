import type { Instant } from '#road/instant.ts'
import type { SubjectId } from '#road/subject.ts'

type Case = SubjectId<'case'>
type Person = SubjectId<'person'>

/** Who a case is, encrypted: to the store it is bytes. */
export interface SealedIdentity {
  readonly case: Case
  /** Null when it was erased: only that there was one is left. */
  readonly sealed: Uint8Array | null
  readonly keptBy: Person | null
  readonly keptAt: Instant
}

/** One that is not erased. */
export type KeptIdentity = SealedIdentity & { readonly sealed: Uint8Array }

/** What is there when an identity is kept. */
export interface IdentitiesThere {
  /** Of the same case. */
  readonly before: SealedIdentity | undefined
  /** The one of the site that was kept last, so that all of a site have one key. */
  readonly last: KeptIdentity | undefined
}

export const identityActs = Object.freeze(['kept', 'seen', 'searched', 'erased'] as const)
export type IdentityAct = (typeof identityActs)[number]

/** One line of the log of who saw or changed which patient's identity. It holds nothing of the patient. */
export interface IdentityAccess {
  readonly id: string
  readonly at: Instant
  /** Null where the command line of the store's owner did it. */
  readonly person: Person | null
  readonly act: IdentityAct
  /** Null for a search. */
  readonly case: Case | null
  readonly why: string
}

/**
 * Who the patients of one site are, beside the record: a case is known by its number there, so that an identity can be
 * erased while the chain stays as it is. Every method that touches an identity writes its line of the log in the same
 * transaction: what cannot be logged is not done.
 */
export interface Identities {
  /**
   * Puts what is made of the one before, if there is one, in its place. It is made once nobody else can keep one at this
   * site; what `make` throws leaves everything as it was.
   */
  keep(access: IdentityAccess & { readonly case: Case }, make: (there: IdentitiesThere) => Uint8Array): Promise<void>
  /** Whether there is one, without looking at it. */
  state(caseId: Case): Promise<(Pick<SealedIdentity, 'keptAt'> & { readonly is: 'kept' | 'erased' }) | undefined>
  see(caseId: Case, access: IdentityAccess): Promise<SealedIdentity | undefined>
  /** All that are kept, for a search. */
  seeAll(access: IdentityAccess): Promise<readonly SealedIdentity[]>
  /** Gives whether there was one. */
  erase(caseId: Case, access: IdentityAccess): Promise<boolean>
  /** The newest first. */
  accesses(page: {
    readonly case?: Case
    readonly before?: string
    readonly limit: number
  }): Promise<readonly IdentityAccess[]>
}
