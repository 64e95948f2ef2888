import { createHash } from 'node:crypto'
import { canonicalJson } from '../canonical-json.ts'
import type { Change, ContentSums } from './seal.ts'

/*
 * Two sums over the contents of the sealed entries. They prove nothing (the hash of the chain does) but say where: a
 * forger who makes the chain anew after a change alters every hash behind it, yet only one content, and with a plain and
 * a weighted sum the place of one changed content can be solved for, as with the two check symbols of a code that
 * corrects one error. Sums are of a prime field, so that they can be divided.
 */

const field = 2n ** 255n - 19n

export const noContent: ContentSums = Object.freeze({ plain: hex(0n), weighted: hex(0n) })

/** A number for what an entry says, whatever its place in the chain. */
export function contentOf(text: string): bigint {
  return BigInt(`0x${createHash('sha256').update(placeless(text), 'utf8').digest('hex')}`) % field
}

function placeless(text: string): string {
  try {
    const { seq: _seq, previousHash: _previous, ...content } = JSON.parse(text) as Record<string, unknown>
    return canonicalJson(content)
  } catch {
    // No entry at all: taken as it stands, so that it differs from whatever was there.
    return text
  }
}

/** The sums with one more content, that of entry `seq`. */
export function withContent(sums: ContentSums, seq: number, content: bigint): ContentSums {
  return {
    plain: hex(modulo(BigInt(`0x${sums.plain}`) + content)),
    weighted: hex(modulo(BigInt(`0x${sums.weighted}`) + BigInt(seq) * content)),
  }
}

/**
 * The one change that turns contents with these sums into the ones found. `found` are the contents in their order as
 * they are now, up to one more than were sealed. `several`: more than one was changed.
 */
export function locateChange(
  sealed: ContentSums & { readonly seq: number },
  found: readonly bigint[],
): Change | 'none' | 'several' {
  const sums = { plain: BigInt(`0x${sealed.plain}`), weighted: BigInt(`0x${sealed.weighted}`) }
  const { seq } = sealed
  const now = sumsOf(found.slice(0, seq))
  if (found.length >= seq && now.plain === sums.plain && now.weighted === sums.weighted) return 'none'
  // Looked for from the one that explains most to the one that explains least.
  return inserted(sums, found, seq) ?? removed(sums, found, seq) ?? altered(sums, found, seq) ?? 'several'
}

interface Sums {
  readonly plain: bigint
  readonly weighted: bigint
}

function altered(sealed: Sums, found: readonly bigint[], seq: number): Change | undefined {
  if (found.length < seq) return undefined
  const now = sumsOf(found.slice(0, seq))
  const [plain, weighted] = [modulo(now.plain - sealed.plain), modulo(now.weighted - sealed.weighted)]
  if (plain === 0n) return undefined
  let product = 0n
  for (let place = 1; place <= seq; place += 1) {
    product = modulo(product + plain)
    if (product === weighted) return { change: 'altered', seq: place }
  }
  return undefined
}

/** All behind the removed one have moved one place forward. */
function removed(sealed: Sums, all: readonly bigint[], seq: number): Change | undefined {
  if (all.length < seq - 1) return undefined
  const found = all.slice(0, seq - 1)
  const now = sumsOf(found)
  const gone = modulo(sealed.plain - now.plain)
  let behind = 0n
  for (let place = seq; place >= 1; place -= 1) {
    if (modulo(now.weighted + behind + BigInt(place) * gone) === sealed.weighted) {
      return { change: place === seq && all.length >= seq ? 'alteredOrRemoved' : 'removed', seq: place }
    }
    behind = modulo(behind + (found[place - 2] ?? 0n))
  }
  return undefined
}

/** All behind the inserted one have moved one place back. */
function inserted(sealed: Sums, found: readonly bigint[], seq: number): Change | undefined {
  if (found.length <= seq) return undefined
  const now = sumsOf(found)
  const extra = modulo(now.plain - sealed.plain)
  let behind = found[seq] ?? 0n
  for (let place = seq; place >= 1; place -= 1) {
    const content = found[place - 1] ?? 0n
    if (content === extra && modulo(now.weighted - behind - BigInt(place) * extra) === sealed.weighted)
      return { change: 'inserted', seq: place }
    behind = modulo(behind + content)
  }
  return undefined
}

function sumsOf(contents: readonly bigint[]): Sums {
  let [plain, weighted] = [0n, 0n]
  for (const [index, content] of contents.entries()) {
    plain += content
    weighted += BigInt(index + 1) * content
  }
  return { plain: modulo(plain), weighted: modulo(weighted) }
}

function modulo(value: bigint): bigint {
  const rest = value % field
  return rest < 0n ? rest + field : rest
}

function hex(value: bigint): string {
  return value.toString(16).padStart(64, '0')
}
