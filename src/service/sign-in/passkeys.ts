import { createHash } from 'node:crypto'
import type { AuthenticationResponseJSON, RegistrationResponseJSON } from '@simplewebauthn/server'
import type { SiteId } from '#road/entry.ts'
import { type Instant, instant, millis } from '#road/instant.ts'
import type { SubjectId } from '#road/subject.ts'
import type { Credentials } from '#journal/credentials/credentials.ts'
import { digestOf } from './secrets.ts'

/*
 * Passkeys by W3C Web Authentication level 3. What the authenticator signed is checked by a kept library. A key counts at the
 * host at which it was made, and only together with what its owner does to open it (user verification), so that it stands for
 * a passphrase. The browser's own word for the address it asked is part of what is signed.
 */

type Person = SubjectId<'person'>

/** The address that the browser asked, as it sees it. */
export interface Address {
  readonly host: string
  readonly origin: string
}

/** What a browser says of a key that was made, or of one that signed. No extension is asked for. */
export type MadePasskey = Omit<RegistrationResponseJSON, 'clientExtensionResults'>
export type PasskeyProof = Omit<AuthenticationResponseJSON, 'clientExtensionResults'>

export interface Passkeys {
  /** What a browser is to ask an authenticator for, to make a key. */
  optionsToMake(person: { readonly id: Person; readonly name: string }, address: Address): Promise<object>
  /** Keeps the key that was made; false when what came is not the answer to what was asked. */
  keep(person: Person, name: string, response: MadePasskey, address: Address): Promise<boolean>
  /** What a browser is to ask an authenticator for, to prove who it is. */
  optionsToProve(address: Address): Promise<object>
  ownerOf(response: PasskeyProof): Promise<Person | undefined>
  /** Whether the key signed what was asked of it here. */
  proves(response: PasskeyProof, address: Address): Promise<boolean>
}

interface Parts {
  readonly credentials: Credentials
  readonly site: SiteId
  readonly now: () => Instant
}

const minutesToAnswer = 5
const relyingParty = 'nilgrowth'

export function passkeysOfSite({ credentials, site, now }: Parts): Passkeys {
  const remember = (challenge: string): Promise<void> =>
    credentials.keepChallenge(
      digestOf('challenge', challenge),
      instant(millis(now()) + minutesToAnswer * 60_000),
      now(),
    )
  const wasAsked = (challenge: string): Promise<boolean> =>
    credentials.takeChallenge(digestOf('challenge', challenge), now())
  return {
    async optionsToMake({ id, name }, { host }) {
      const { generateRegistrationOptions } = await import('@simplewebauthn/server')
      const had = await credentials.passkeysOf(id)
      const options = await generateRegistrationOptions({
        rpName: relyingParty,
        rpID: host,
        userName: name,
        userDisplayName: name,
        // What the authenticator keeps tells nobody who it is.
        userID: new Uint8Array(createHash('sha256').update(`${site}\n${id}`).digest()),
        attestationType: 'none',
        excludeCredentials: had.filter((each) => each.host === host).map((each) => ({ id: each.id })),
        authenticatorSelection: { residentKey: 'required', userVerification: 'required' },
      })
      await remember(options.challenge)
      return options
    },

    async keep(person, name, response, { host, origin }) {
      const { verifyRegistrationResponse } = await import('@simplewebauthn/server')
      const verified = await orRefused(() =>
        verifyRegistrationResponse({
          response: { ...response, clientExtensionResults: {} },
          expectedChallenge: wasAsked,
          expectedOrigin: origin,
          expectedRPID: host,
          requireUserVerification: true,
        }),
      )
      if (verified?.verified !== true) return false
      const { id, publicKey, counter } = verified.registrationInfo.credential
      if ((await credentials.passkey(id)) !== undefined) return false
      await credentials.keepPasskey({
        id,
        person,
        publicKey: Buffer.from(publicKey).toString('base64url'),
        counter,
        host,
        name,
        keptAt: now(),
        usedAt: null,
      })
      return true
    },

    async optionsToProve({ host }) {
      const { generateAuthenticationOptions } = await import('@simplewebauthn/server')
      const options = await generateAuthenticationOptions({ rpID: host, userVerification: 'required' })
      await remember(options.challenge)
      return options
    },

    ownerOf: async ({ id }) => (await credentials.passkey(id))?.person,

    async proves(response, { origin }) {
      const passkey = await credentials.passkey(response.id)
      if (passkey === undefined) return false
      const { verifyAuthenticationResponse } = await import('@simplewebauthn/server')
      const verified = await orRefused(() =>
        verifyAuthenticationResponse({
          response: { ...response, clientExtensionResults: {} },
          expectedChallenge: wasAsked,
          expectedOrigin: origin,
          expectedRPID: passkey.host,
          requireUserVerification: true,
          credential: {
            id: passkey.id,
            publicKey: new Uint8Array(Buffer.from(passkey.publicKey, 'base64url')),
            counter: passkey.counter,
          },
        }),
      )
      if (verified?.verified !== true) return false
      await credentials.usedPasskey(passkey.id, verified.authenticationInfo.newCounter, now())
      return true
    },
  }
}

/** The library throws at an answer that is wrong in any way; to us each of them is a no. */
async function orRefused<T>(verify: () => Promise<T>): Promise<T | undefined> {
  try {
    return await verify()
  } catch {
    return undefined
  }
}
