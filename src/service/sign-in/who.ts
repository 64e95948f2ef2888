import type { Role } from '#road/people/entries.ts'
import type { SubjectId } from '#road/subject.ts'
import type { Device, Session } from '#journal/credentials/credentials.ts'

/** Who asks. */
export type Who =
  /** A record without sign-in: the demonstration, or a service that was opened so. Entries say themselves who made them. */
  { readonly kind: 'anyone' } | { readonly kind: 'nobody'; readonly device: Device | undefined } | SignedIn

export interface SignedIn {
  readonly kind: 'person'
  readonly person: SubjectId<'person'>
  readonly name: string
  readonly roles: readonly Role[]
  readonly session: Session
  /** The enrolled tablet. */
  readonly device: Device | undefined
}

/** The enrolled tablet from which somebody asks, signed in or not. */
export function tabletOf(who: Who): Device | undefined {
  return who.kind === 'anyone' ? undefined : who.device
}
