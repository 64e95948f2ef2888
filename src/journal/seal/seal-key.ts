import { createPrivateKey, createPublicKey, generateKeyPairSync, type KeyObject, sign } from 'node:crypto'
import {
  chmodSync,
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readFileSync,
  statSync,
  writeSync,
} from 'node:fs'
import { dirname } from 'node:path'
import { upgradeFolderOf, type Place } from '../place.ts'
import { StoreError } from '../store-error.ts'
import { syncFolder } from '../sync-file.ts'
import type { SealKey } from './seal.ts'

/** Where the key stands when nothing else is said: beside the record, and in no backup of it. */
export function sealKeyFileOf(at: Place): string {
  return at.kind === 'sqlite' ? `${at.file}.seal-key` : `${upgradeFolderOf(at)}/${at.schema ?? 'nilgrowth'}.seal-key`
}

/** Reads the key of a file, making one at first use. The file is for its owner alone. */
export function sealKey(file: string): SealKey {
  if (!existsSync(file)) makeKey(file)
  if (process.platform !== 'win32' && (statSync(file).mode & 0o077) !== 0) {
    throw new StoreError(`The key ${file} can be read by others, who could sign in your name: run chmod 600 on it`)
  }
  return keyOf(file)
}

function keyOf(file: string): SealKey {
  try {
    const privateKey = createPrivateKey(readFileSync(file))
    if (privateKey.asymmetricKeyType !== 'ed25519') throw new TypeError('not of Ed25519')
    return {
      publicKey: rawPublicKey(privateKey),
      sign: (bytes) => sign(null, bytes, privateKey).toString('base64url'),
    }
  } catch (error) {
    throw new StoreError(
      `The file ${file} is no private key of Ed25519: put the right one there, or move it away to have a new one made`,
      { cause: error },
    )
  }
}

function rawPublicKey(privateKey: KeyObject): string {
  const { x } = createPublicKey(privateKey).export({ format: 'jwk' })
  if (x === undefined) throw new TypeError('not of Ed25519')
  return x
}

/** Made in one go under a name that must be free, so that two processes never have different ones. */
function makeKey(file: string): void {
  mkdirSync(dirname(file), { recursive: true })
  const pem = generateKeyPairSync('ed25519').privateKey.export({ type: 'pkcs8', format: 'pem' })
  let handle
  try {
    handle = openSync(file, 'wx', 0o600)
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'EEXIST') return
    throw error
  }
  try {
    writeSync(handle, String(pem))
    fsyncSync(handle)
  } finally {
    closeSync(handle)
  }
  chmodSync(file, 0o600)
  syncFolder(dirname(file))
}
