import { v7 } from 'uuid'
import type { SiteId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import { type IdentityReason, PatientIdentity } from '#road/people/identity.ts'
import type { SubjectId } from '#road/subject.ts'
import { canonicalJson } from '#journal/canonical-json.ts'
import { type IdentityCipher, identityCipher } from '#journal/identities/cipher.ts'
import type { Identities, IdentityAccess, IdentityAct, SealedIdentity } from '#journal/identities/identities.ts'

type Case = SubjectId<'case'>
type Person = SubjectId<'person'>

/** Who asks; null for the command line of whoever owns the store. */
interface Asked {
  readonly by: Person | null
  readonly why: IdentityReason
}

export type SeenIdentity =
  | { readonly kind: 'none' }
  | { readonly kind: 'erased'; readonly at: Instant }
  | { readonly kind: 'seen'; readonly identity: PatientIdentity; readonly keptAt: Instant }
  /** Encrypted by another key than the one at hand, or damaged. */
  | { readonly kind: 'unreadable' }

export interface FoundIdentity {
  readonly case: Case
  readonly identity: PatientIdentity
}

/** Who the patients are. Whatever is looked at or changed is logged, with who and why. */
export interface PatientIdentities {
  keep(caseId: Case, identity: PatientIdentity, asked: Asked): Promise<void>
  see(caseId: Case, asked: Asked): Promise<SeenIdentity>
  /** Those whose name, number, day of birth or telephone holds the text, at most twenty. Each one given is logged as seen. */
  search(text: string, asked: Asked): Promise<readonly FoundIdentity[]>
  erase(caseId: Case, asked: Asked): Promise<boolean>
}

interface Parts {
  readonly identities: Identities
  readonly site: SiteId
  readonly keyFile: string
  readonly now: () => Instant
}

const mostFound = 20

export function patientIdentities({ identities, site, keyFile, now }: Parts): PatientIdentities {
  let cipher: IdentityCipher | undefined
  // Read late: a unit that keeps no identities has no key.
  const key = (make: boolean): IdentityCipher => (cipher ??= identityCipher(keyFile, { make }))
  const access = (act: IdentityAct, caseId: Case | null, { by, why }: Asked): IdentityAccess => ({
    id: v7(),
    at: now(),
    person: by,
    act,
    case: caseId,
    why,
  })
  const bound = (caseId: Case): string => `${site}\n${caseId}`
  const read = ({ case: caseId, sealed }: SealedIdentity): PatientIdentity | undefined => {
    const text = sealed === null ? undefined : key(false).open(sealed, bound(caseId))
    return text === undefined ? undefined : PatientIdentity.safeParse(JSON.parse(text)).data
  }
  return {
    async keep(caseId, identity, asked) {
      const sealed = key(true).seal(canonicalJson(identity), bound(caseId))
      await identities.keep({ case: caseId, sealed, keptBy: asked.by, keptAt: now() }, access('kept', caseId, asked))
    },
    async see(caseId, asked) {
      // A look at nothing is no look.
      const state = await identities.state(caseId)
      if (state === undefined) return { kind: 'none' }
      if (state.is === 'erased') return { kind: 'erased', at: state.keptAt }
      const sealed = await identities.see(caseId, access('seen', caseId, asked))
      const identity = sealed && read(sealed)
      return sealed === undefined || identity === undefined
        ? { kind: 'unreadable' }
        : { kind: 'seen', identity, keptAt: sealed.keptAt }
    },
    async search(text, asked) {
      const wanted = plain(text)
      const all = await identities.seeAll(access('searched', null, asked))
      const found = all
        .flatMap((sealed) => {
          const identity = read(sealed)
          return identity === undefined ? [] : [{ case: sealed.case, identity }]
        })
        .filter(({ identity }) => Object.values(identity).some((value) => plain(value ?? '').includes(wanted)))
        .slice(0, mostFound)
      for (const { case: caseId } of found) await identities.see(caseId, access('seen', caseId, asked))
      return found
    },
    erase: (caseId, asked) => identities.erase(caseId, access('erased', caseId, asked)),
  }
}

function plain(text: string): string {
  return text.normalize('NFKC').trim().toLowerCase().replaceAll(/\s+/g, ' ')
}
