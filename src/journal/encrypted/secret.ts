import { argon2Sync, hkdfSync, randomBytes } from 'node:crypto'
import { closeSync, existsSync, fsyncSync, mkdirSync, openSync, readFileSync, writeSync } from 'node:fs'
import { dirname } from 'node:path'
import { StoreError } from '../store-error.ts'
import { syncFolder } from '../sync-file.ts'
import type { KeyDerivation } from './header.ts'

/** What the owner of a backup holds. */
export type Secret =
  | { readonly kind: 'keyFile'; readonly key: Buffer }
  | { readonly kind: 'passphrase'; readonly text: string }

const keyBytes = 32
const leastPassphrase = 12

/** RFC 9106, section 4: the second recommended setting, for where memory is short. */
const argon2id = { memoryKibibytes: 65_536, passes: 3, lanes: 4 } as const

export function newDerivation(secret: Secret): KeyDerivation {
  const salt = randomBytes(32).toString('hex')
  return secret.kind === 'keyFile'
    ? { from: 'keyFile', by: 'hkdf-sha256', salt }
    : { from: 'passphrase', by: 'argon2id', salt, ...argon2id }
}

/** The key of one file. */
export function derivedKey(secret: Secret, how: KeyDerivation): Buffer {
  const salt = Buffer.from(how.salt, 'hex')
  if (how.from === 'keyFile') {
    if (secret.kind !== 'keyFile') throw new StoreError('The backup wants its key file: name it with --key-file')
    return Buffer.from(hkdfSync('sha256', secret.key, salt, 'nilgrowth backup', keyBytes))
  }
  if (secret.kind !== 'passphrase') {
    throw new StoreError('The backup wants a passphrase: name a file that holds it with --passphrase-file')
  }
  return argon2Sync('argon2id', {
    message: Buffer.from(secret.text.normalize('NFC'), 'utf8'),
    nonce: salt,
    memory: how.memoryKibibytes,
    passes: how.passes,
    parallelism: how.lanes,
    tagLength: keyBytes,
  })
}

/** Reads a passphrase from a file; the end of its line is no part of it. */
export function passphraseOf(file: string): Secret {
  const text = readFileSync(file, 'utf8').replace(/\r?\n$/, '')
  if (text.length < leastPassphrase) {
    throw new StoreError(
      `The passphrase in ${file} must have ${leastPassphrase} letters or more: it has ${text.length}`,
    )
  }
  return { kind: 'passphrase', text }
}

/** Reads a key of 32 bytes, written as 64 hexadecimal digits. */
export function keyFileOf(file: string): Secret {
  const text = readFileSync(file, 'utf8').trim()
  if (!/^[0-9a-f]{64}$/.test(text)) {
    throw new StoreError(`The key file ${file} must hold 64 hexadecimal digits and nothing else`)
  }
  return { kind: 'keyFile', key: Buffer.from(text, 'hex') }
}

/** Makes a key where there is none. Tells whether it did, since a key that is nowhere else is soon a key lost. */
export function makeKeyFile(file: string): boolean {
  if (existsSync(file)) return false
  mkdirSync(dirname(file), { recursive: true })
  const handle = openSync(file, 'wx', 0o600)
  try {
    writeSync(handle, `${randomBytes(keyBytes).toString('hex')}\n`)
    fsyncSync(handle)
  } finally {
    closeSync(handle)
  }
  syncFolder(dirname(file))
  return true
}
