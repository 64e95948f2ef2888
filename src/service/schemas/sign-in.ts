import { z } from 'zod'
import { EntryId } from '#road/entry.ts'
import { Instant } from '#road/instant.ts'
import { Role } from '#road/people/entries.ts'
import { Proof, SignedAs } from '#road/people/signature.ts'
import { subjectOf } from '#road/subject.ts'

/** Longer than any that a person types, short enough that hashing it costs nothing more. */
const secret = z.string().min(1).max(256)
const pin = z.string().regex(/^\d{1,32}$/, 'digits only')

const Base64Url = z.string().regex(/^[A-Za-z0-9_-]{1,8192}$/, 'base64url')
/** What a browser says of a passkey: `toJSON()` of its PublicKeyCredential. What more it adds is passed over. */
const passkeyAnswer = {
  id: Base64Url,
  rawId: Base64Url,
  type: z.literal('public-key'),
}

const PasskeyProof = z.object({
  ...passkeyAnswer,
  response: z.object({ clientDataJSON: Base64Url, authenticatorData: Base64Url, signature: Base64Url }),
})

export const PasskeyInput = z.strictObject({
  /** The passphrase that is in force: whoever finds a tablet open shall not make a key of their own to it. */
  current: secret,
  name: z.string().trim().min(1).max(60),
  made: z.object({
    ...passkeyAnswer,
    response: z.object({ clientDataJSON: Base64Url, attestationObject: Base64Url }),
  }),
})

/** For the browser, as it stands: PublicKeyCredentialCreationOptionsJSON or …RequestOptionsJSON of Web Authentication. */
export const PasskeyOptionsSchema = z.record(z.string(), z.json())

export const PasskeysSchema = z.array(
  z.object({ id: z.string(), name: z.string(), host: z.string(), keptAt: Instant, usedAt: Instant.nullable() }),
)

export const SessionsSchema = z.array(
  z.object({
    id: z.string(),
    how: Proof,
    tablet: z.string().nullable(),
    startedAt: Instant,
    seenAt: Instant,
    endsAt: Instant,
    here: z.boolean(),
  }),
)

export const SessionsToEnd = z.strictObject({
  /** The passphrase that is in force: whoever finds a tablet open shall not shut its person out elsewhere. */
  current: secret,
  session: z.union([z.literal('others'), z.string().regex(/^[0-9a-f]{16}$/, '"others" or the id of a session')]),
})

export const ProvingInput = z.discriminatedUnion('by', [
  z.strictObject({ by: z.literal('passphrase'), name: z.string().trim().min(1).max(120), passphrase: secret }),
  z.strictObject({ by: z.literal('badge'), badge: z.string().trim().min(1).max(200), pin }),
  z.strictObject({ by: z.literal('pin'), person: subjectOf('person'), pin }),
  z.strictObject({ by: z.literal('passkey'), response: PasskeyProof }),
  z.strictObject({ by: z.literal('code'), code: z.string().trim().min(1).max(40), passphrase: secret }),
])

export const SignatureInput = z.strictObject({ entry: EntryId, as: SignedAs, proving: ProvingInput })

export const SecretsInput = z
  .strictObject({
    /** The passphrase that is in force. */
    current: secret,
    passphrase: secret.optional(),
    pin: pin.optional(),
    badge: z.string().trim().min(1).max(200).optional(),
  })
  .refine(({ passphrase, pin: digits, badge }) => passphrase ?? digits ?? badge, 'a passphrase, a pin or a badge')

export const MeSchema = z.object({
  signIn: z.enum(['required', 'notAsked']),
  person: z.object({ id: subjectOf('person'), name: z.string(), roles: z.array(Role) }).nullable(),
  hasPin: z.boolean(),
  device: z.object({ id: z.string(), name: z.string() }).nullable(),
  idleMinutes: z.number(),
  sessionEndsAt: Instant.nullable(),
  passphraseLeast: z.number(),
  pinLeast: z.number(),
  passphraseAlone: z.boolean(),
})

export const SignedSchema = z.object({ person: subjectOf('person') })

export const AccountsSchema = z.array(
  z.object({
    person: subjectOf('person'),
    name: z.string(),
    roles: z.array(Role),
    passphrase: z.boolean(),
    pin: z.boolean(),
    badge: z.boolean(),
    codeUntil: Instant.nullable(),
    lockedUntil: Instant.nullable(),
  }),
)

export const CodeSchema = z.object({ code: z.string(), until: Instant })

export const DeviceInput = z.strictObject({ name: z.string().trim().min(1).max(80) })

export const DeviceSchema = z.object({
  id: z.string(),
  name: z.string(),
  enrolledBy: subjectOf('person'),
  enrolledAt: Instant,
  endedAt: Instant.nullable(),
})

export const AccessSchema = z.object({
  lines: z.array(
    z.object({
      id: z.string(),
      at: Instant,
      person: subjectOf('person').nullable(),
      what: z.string(),
      about: z.string().nullable(),
    }),
  ),
  next: z.string().nullable(),
})
