import { post } from '../api/client.ts'

/*
 * The browser's own Web Authentication. Asked for with its JSON forms (level 3), which are younger than the rest: where they
 * are missing, or the page is not at a trustworthy address, no passkey is offered.
 */

export function offersPasskeys(): boolean {
  return (
    isSecureContext &&
    typeof PublicKeyCredential !== 'undefined' &&
    'parseRequestOptionsFromJSON' in PublicKeyCredential &&
    'parseCreationOptionsFromJSON' in PublicKeyCredential
  )
}

/** The person left the authenticator, or it has no key of this place. */
export class NoPasskeyError extends Error {
  override name = 'NoPasskeyError'
}

/** A proof by passkey, for signing in or for a signature. */
export async function provePasskey(): Promise<object> {
  const options = await post<PublicKeyCredentialRequestOptionsJSON>('/api/passkeys/challenge', {})
  const publicKey = PublicKeyCredential.parseRequestOptionsFromJSON(options)
  return { by: 'passkey', response: await answered(() => navigator.credentials.get({ publicKey })) }
}

/** Makes a passkey; gives what the service is to keep. */
export async function makePasskey(): Promise<object> {
  const options = await post<PublicKeyCredentialCreationOptionsJSON>('/api/me/passkeys/challenge', {})
  const publicKey = PublicKeyCredential.parseCreationOptionsFromJSON(options)
  return await answered(() => navigator.credentials.create({ publicKey }))
}

async function answered(ask: () => Promise<Credential | null>): Promise<object> {
  let credential: Credential | null
  try {
    credential = await ask()
  } catch (error) {
    throw new NoPasskeyError('no passkey', { cause: error })
  }
  if (!(credential instanceof PublicKeyCredential)) throw new NoPasskeyError('no passkey')
  return credential.toJSON()
}
