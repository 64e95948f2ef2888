import { z } from 'zod'
import { SiteId } from '#road/entry.ts'
import { Instant } from '#road/instant.ts'

const Hex = z.string().regex(/^[0-9a-f]{64}$/)

/** A raw Ed25519 key, 32 bytes, in base64url. */
export const PublicKey = z.string().regex(/^[A-Za-z0-9_-]{43}$/)

/** See `content-sums.ts`. */
export const ContentSums = z.strictObject({
  /** Of the contents. */
  plain: Hex,
  /** Of the contents, each times its place in the chain. */
  weighted: Hex,
})
export type ContentSums = z.infer<typeof ContentSums>

/**
 * What the record of a site was up to one entry, signed. Printed or sent elsewhere it proves later that nothing up to
 * that entry was altered, removed or inserted, even if the whole chain was made anew: the hash of the last entry holds
 * all before it.
 */
export const Seal = z.strictObject({
  format: z.literal('nilgrowth seal'),
  version: z.literal(1),
  site: SiteId,
  /** The last entry that is sealed. */
  seq: z.int().min(1),
  hash: Hex,
  recordedAt: Instant,
  sealedAt: Instant,
  sums: ContentSums,
  publicKey: PublicKey,
  signature: z.string().regex(/^[A-Za-z0-9_-]{86}$/),
})
export type Seal = z.infer<typeof Seal>

export interface Change {
  /** Of the last sealed entry it cannot be said which: what stands in its place may be the one that came after it. */
  readonly change: 'altered' | 'removed' | 'inserted' | 'alteredOrRemoved'
  readonly seq: number
}

export type SealCheck =
  | { readonly kind: 'holds' }
  /** The seal itself is not to be trusted, whatever the record is. */
  | { readonly kind: 'noProof'; readonly says: string }
  /** The record is not what was sealed. */
  | { readonly kind: 'broken'; readonly says: string; readonly change: Change | undefined }

/** The key that signs, as far as others need to know of it. */
export interface SealKey {
  /** Gives the signature in base64url. */
  readonly sign: (bytes: Uint8Array) => string
  /** Raw, in base64url. */
  readonly publicKey: string
}
