import { createHash, createPublicKey, verify } from 'node:crypto'
import { canonicalJson } from '../canonical-json.ts'
import type { Seal, SealKey } from './seal.ts'

/** Names a key in few letters, for people: the start of its SHA-256. */
export function keyId(publicKey: string): string {
  return createHash('sha256').update(Buffer.from(publicKey, 'base64url')).digest('hex').slice(0, 16)
}

export function signSeal(unsigned: Omit<Seal, 'signature' | 'publicKey'>, key: SealKey): Seal {
  const all = { ...unsigned, publicKey: key.publicKey }
  return { ...all, signature: key.sign(signedBytes(all)) }
}

/** Whether the signature is that of the key which the seal names (Ed25519, RFC 8032). */
export function signatureHolds({ signature, ...rest }: Seal): boolean {
  const key = createPublicKey({ key: { kty: 'OKP', crv: 'Ed25519', x: rest.publicKey }, format: 'jwk' })
  return verify(null, signedBytes(rest), key, Buffer.from(signature, 'base64url'))
}

function signedBytes(unsigned: Omit<Seal, 'signature'>): Buffer {
  return Buffer.from(canonicalJson(unsigned), 'utf8')
}
