import { argon2, createHash, randomBytes, randomInt, timingSafeEqual } from 'node:crypto'
import { promisify } from 'node:util'

/*
 * Secrets are kept as argon2id hashes (RFC 9106), in the usual text form that names its parameters, so that they can be
 * raised later. What a program made, and nobody could guess, needs no slow hash: SHA-256 of it is kept.
 */

const derive = promisify(argon2)

/** 19 MiB, two passes, one lane: what the OWASP password storage cheat sheet names as the least (from memory). */
const cost = { memory: 19_456, passes: 2, parallelism: 1, tagLength: 32 } as const
const format = /^\$argon2id\$v=19\$m=(\d+),t=(\d+),p=(\d+)\$([A-Za-z0-9+/]+)\$([A-Za-z0-9+/]+)$/

export async function hashSecret(secret: string): Promise<string> {
  const nonce = randomBytes(16)
  const tag = await derive('argon2id', { message: normal(secret), nonce, ...cost })
  return `$argon2id$v=19$m=${cost.memory},t=${cost.passes},p=${cost.parallelism}$${plain(nonce)}$${plain(tag)}`
}

/** Whether the secret is the one that was hashed. Takes as long when there is nothing to compare with. */
export async function isSecret(secret: string, hash: string | null): Promise<boolean> {
  const read = format.exec(hash ?? '')
  if (read === null) {
    await derive('argon2id', { message: normal(secret), nonce: Buffer.alloc(16), ...cost })
    return false
  }
  const [memory, passes, parallelism] = [Number(read[1]), Number(read[2]), Number(read[3])]
  const wanted = Buffer.from(read[5] ?? '', 'base64')
  const nonce = Buffer.from(read[4] ?? '', 'base64')
  const tag = await derive('argon2id', {
    message: normal(secret),
    nonce,
    memory,
    passes,
    parallelism,
    tagLength: wanted.length,
  })
  return timingSafeEqual(tag, wanted)
}

/** What a browser holds: 256 random bits. */
export function newToken(): string {
  return randomBytes(32).toString('base64url')
}

/** What is kept of a token, a badge or a code. */
export function digestOf(
  purpose: 'session' | 'device' | 'badge' | 'code' | 'token' | 'challenge',
  text: string,
): string {
  return createHash('sha256').update(`${purpose}\n${text}`).digest('hex')
}

/** Without the letters and digits that are taken for each other when they are read aloud or copied by hand. */
const letters = 'ABCDEFGHJKMNPQRSTUVWXYZ23456789'

/** A code to be copied by hand once: 79 random bits, in groups of four. */
export function newCode(): string {
  const drawn = Array.from({ length: 16 }, () => letters[randomInt(letters.length)])
  return [0, 4, 8, 12].map((from) => drawn.slice(from, from + 4).join('')).join('-')
}

/** A code as people copy it: small letters, without the hyphens, with a blank. */
export function readCode(text: string): string {
  return text.toUpperCase().replaceAll(/[^A-Z0-9]/g, '')
}

/** The same passphrase typed on two keyboards may come as two sequences of characters. */
function normal(secret: string): string {
  return secret.normalize('NFKC')
}

function plain(bytes: Uint8Array): string {
  return Buffer.from(bytes).toString('base64').replaceAll('=', '')
}
