import { z } from 'zod'
import { SiteId } from '#road/entry.ts'
import { Instant } from '#road/instant.ts'

/*
 * An encrypted backup is one line of JSON, this header, and behind it the content: compressed by gzip, cut into chunks,
 * each encrypted and signed by AES-256-GCM. Header, place and end of each chunk are signed with it, so that no chunk can be
 * changed, moved, left out or cut off unseen.
 */

const Salt = z.string().regex(/^[0-9a-f]{64}$/)

/** How the key of the file is made from what its owner holds. A salt of its own gives every file a key of its own. */
const KeyDerivation = z.discriminatedUnion('from', [
  z.strictObject({ from: z.literal('keyFile'), by: z.literal('hkdf-sha256'), salt: Salt }),
  z.strictObject({
    from: z.literal('passphrase'),
    by: z.literal('argon2id'),
    salt: Salt,
    // Bounded, so that a forged header cannot make the reader use up the machine.
    memoryKibibytes: z.int().min(8).max(1_048_576),
    passes: z.int().min(1).max(100),
    lanes: z.int().min(1).max(64),
  }),
])
export type KeyDerivation = z.infer<typeof KeyDerivation>

/** Where the chain of each site ended when the backup was made: what a restore must give again. */
const BackupHead = z.strictObject({ site: SiteId, seq: z.int().min(1), hash: z.string().regex(/^[0-9a-f]{64}$/) })
export type BackupHead = z.infer<typeof BackupHead>

export const EncryptedHeader = z.strictObject({
  format: z.literal('nilgrowth encrypted backup'),
  version: z.literal(1),
  madeAt: Instant,
  heads: z.array(BackupHead).readonly(),
  content: z.enum(['sqlite', 'lines']),
  compression: z.literal('gzip'),
  cipher: z.literal('aes-256-gcm'),
  chunkBytes: z.int().min(1024).max(16_777_216),
  key: KeyDerivation,
})
export type EncryptedHeader = z.infer<typeof EncryptedHeader>

/** Longer than any header: with a hundred sites it is about 13 kB. */
export const mostHeaderBytes = 1_048_576
