import { createCipheriv, createDecipheriv, randomBytes } from 'node:crypto'
import { existsSync } from 'node:fs'
import { keyFileOf, makeKeyFile } from '../encrypted/secret.ts'
import { upgradeFolderOf, type Place } from '../place.ts'
import { StoreError } from '../store-error.ts'

/*
 * AES-256-GCM (NIST SP 800-38D) with a nonce of 96 random bits for each writing. Site and case are authenticated with it, so
 * that one patient's row cannot be put in the place of another's. The key is a file beside the record, in no backup.
 */

const nonceBytes = 12
const tagBytes = 16
const version = 1

export interface IdentityCipher {
  seal(text: string, bound: string): Uint8Array
  /** Undefined when the bytes are not of this key and place. */
  open(sealed: Uint8Array, bound: string | Uint8Array): string | undefined
}

/** Where the key stands when nothing else is said. */
export function identityKeyFileOf(at: Place): string {
  return at.kind === 'sqlite'
    ? `${at.file}.identity-key`
    : `${upgradeFolderOf(at)}/${at.schema ?? 'nilgrowth'}.identity-key`
}

/** Reads the key of a file; `make`: makes one where there is none, for the first identity of a site. */
export function identityCipher(file: string, { make }: { readonly make: boolean }): IdentityCipher {
  if (!existsSync(file)) {
    if (!make)
      throw new StoreError(
        `The key of the patients' identities is not at ${file}: put it back there from where it was kept`,
      )
    makeKeyFile(file)
  }
  const secret = keyFileOf(file)
  if (secret.kind !== 'keyFile') throw new StoreError(`The file ${file} holds no key`)
  return cipherOf(secret.key)
}

export function cipherOf(key: Uint8Array): IdentityCipher {
  return {
    seal(text, bound) {
      const nonce = randomBytes(nonceBytes)
      const cipher = createCipheriv('aes-256-gcm', key, nonce).setAAD(Buffer.from(bound))
      return Buffer.concat([
        Buffer.of(version),
        nonce,
        cipher.update(text, 'utf8'),
        cipher.final(),
        cipher.getAuthTag(),
      ])
    },
    open(sealed, bound) {
      const bytes = Buffer.from(sealed)
      if (bytes[0] !== version || bytes.length < 1 + nonceBytes + tagBytes) return undefined
      const nonce = bytes.subarray(1, 1 + nonceBytes)
      const decipher = createDecipheriv('aes-256-gcm', key, nonce)
        .setAAD(Buffer.from(bound))
        .setAuthTag(bytes.subarray(-tagBytes))
      try {
        return decipher.update(bytes.subarray(1 + nonceBytes, -tagBytes), undefined, 'utf8') + decipher.final('utf8')
      } catch {
        return undefined
      }
    },
  }
}
