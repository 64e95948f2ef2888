import { v7 } from 'uuid'
import type { SiteId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import { type IdentityReason, PatientIdentity } from '#road/people/identity.ts'
import type { SubjectId } from '#road/subject.ts'
import { canonicalJson } from '#journal/canonical-json.ts'
import { type IdentityCipher, identityCipher } from '#journal/identities/cipher.ts'
import type {
  Identities,
  IdentityAccess,
  IdentityAct,
  KeptIdentity,
  SealedIdentity,
} from '#journal/identities/identities.ts'
import { StoreError } from '#journal/store-error.ts'
import { matchesPatient } from './matches-patient.ts'

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
  /** A field that is left out stays as it was kept before. */
  keep(caseId: Case, identity: PatientIdentity, asked: Asked): Promise<void>
  /**
   * As `keep`, but leaves what is kept as it is where that is somebody else, and says so: what another system gives is never
   * laid over another person. With `ifNone` only where there never was one.
   */
  keepSame(caseId: Case, identity: PatientIdentity, asked: Asked & { readonly ifNone: boolean }): Promise<KeptSame>
  see(caseId: Case, asked: Asked): Promise<SeenIdentity>
  /** Those who fit the text as `matchesPatient` says, at most twenty. Each one given is logged as seen. */
  search(text: string, asked: Asked): Promise<readonly FoundIdentity[]>
  erase(caseId: Case, asked: Asked): Promise<boolean>
}

export type KeptSame = 'kept' | 'another' | 'there'

/** Stops a writing in which another person would be mixed in. */
class AnotherPatient extends Error {}

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
  const key = (make = false): IdentityCipher => (cipher ??= identityCipher(keyFile, { make }))
  const access = <Of extends Case | null>(
    act: IdentityAct,
    caseId: Of,
    { by, why }: Asked,
  ): IdentityAccess & { readonly case: Of } => ({
    id: v7(),
    at: now(),
    person: by,
    act,
    case: caseId,
    why,
  })
  const bound = (caseId: Case): string => `${site}\n${caseId}`
  const open = ({ case: caseId, sealed }: KeptIdentity): string | undefined => {
    const text = key().open(sealed, bound(caseId))
    // Another file may be put there while the service runs.
    if (text === undefined) cipher = undefined
    return text
  }
  const read = (identity: SealedIdentity): PatientIdentity | undefined => {
    const { sealed } = identity
    const text = sealed === null ? undefined : open({ ...identity, sealed })
    return text === undefined ? undefined : PatientIdentity.safeParse(JSON.parse(text)).data
  }
  /** One site has one key: by a second one some of its patients could be read here and others there. */
  const keyBeside = (last: KeptIdentity | undefined): IdentityCipher => {
    if (last !== undefined && open(last) === undefined)
      throw new StoreError(
        `The key at ${keyFile} is not the one by which the identities of ${site} are encrypted. Nothing was written: put that one there`,
      )
    return key(last === undefined)
  }
  const keep = async (
    caseId: Case,
    identity: PatientIdentity,
    { onlySame, ...asked }: Asked & { readonly onlySame: boolean },
  ): Promise<void> => {
    await identities.keep(access('kept', caseId, asked), ({ before, last }) => {
      const cipherHere = keyBeside(last)
      const kept = before && read(before)
      if (onlySame && kept !== undefined && !maySame(kept, identity)) throw new AnotherPatient()
      // Whoever writes may not be one who sees: what they leave out they cannot know, so it stays.
      const whole = { ...kept, ...identity }
      return cipherHere.seal(canonicalJson(whole), bound(caseId))
    })
  }
  return {
    keep: (caseId, identity, asked) => keep(caseId, identity, { ...asked, onlySame: false }),
    async keepSame(caseId, identity, { ifNone, ...asked }) {
      if (ifNone && (await identities.state(caseId)) !== undefined) return 'there'
      try {
        await keep(caseId, identity, { ...asked, onlySame: true })
        return 'kept'
      } catch (error) {
        if (error instanceof AnotherPatient) return 'another'
        throw error
      }
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
      const fits = matchesPatient(text)
      const all = await identities.seeAll(access('searched', null, asked))
      const found = all
        .flatMap((sealed) => {
          const identity = read(sealed)
          return identity === undefined ? [] : [{ case: sealed.case, identity }]
        })
        .filter(({ identity }) => fits(identity))
        .slice(0, mostFound)
      for (const { case: caseId } of found) await identities.see(caseId, access('seen', caseId, asked))
      return found
    },
    erase: (caseId, asked) => identities.erase(caseId, access('erased', caseId, asked)),
  }
}

/** By the number in the hospital where both have one; else by the day of birth and the name, where both have them. */
function maySame(kept: PatientIdentity, given: PatientIdentity): boolean {
  const differ = (field: 'hospitalNumber' | 'bornOn' | 'name'): boolean | undefined =>
    kept[field] === undefined || given[field] === undefined ? undefined : plain(kept[field]) !== plain(given[field])
  return !(differ('hospitalNumber') ?? (differ('bornOn') === true || differ('name') === true))
}

function plain(text: string): string {
  return text.toLowerCase().replaceAll(/\s+/g, ' ').trim()
}
