import { createCipheriv, createDecipheriv, createHash } from 'node:crypto'
import { StoreError } from '../store-error.ts'

const tagBytes = 16

/** What the chunks of one file share. */
export interface ChunkKey {
  readonly key: Buffer
  /** The header as it stands in the file. */
  readonly header: Buffer
  readonly chunkBytes: number
}

/** Cuts a content into chunks and encrypts each. There is always a last one, which may be empty. */
export async function* encryptedChunks(content: AsyncIterable<Buffer>, how: ChunkKey): AsyncGenerator<Buffer> {
  let place = 0
  for await (const { piece, last } of pieces(content, how.chunkBytes)) {
    const cipher = createCipheriv('aes-256-gcm', how.key, nonceOf(place, last))
    cipher.setAAD(createHash('sha256').update(how.header).digest())
    yield Buffer.concat([cipher.update(piece), cipher.final(), cipher.getAuthTag()])
    place += 1
  }
}

/** Gives nothing of a chunk before its signature was checked. */
export async function* decryptedChunks(
  file: string,
  content: AsyncIterable<Buffer>,
  how: ChunkKey,
): AsyncGenerator<Buffer> {
  let place = 0
  for await (const { piece, last } of pieces(content, how.chunkBytes + tagBytes)) {
    yield decrypted(file, piece, { ...how, place, last })
    place += 1
  }
}

function decrypted(
  file: string,
  piece: Buffer,
  { key, header, place, last, chunkBytes }: ChunkKey & { readonly place: number; readonly last: boolean },
): Buffer {
  try {
    const decipher = createDecipheriv('aes-256-gcm', key, nonceOf(place, last))
    decipher.setAAD(createHash('sha256').update(header).digest())
    decipher.setAuthTag(piece.subarray(-tagBytes))
    return Buffer.concat([decipher.update(piece.subarray(0, -tagBytes)), decipher.final()])
  } catch (error) {
    const says =
      place === 0
        ? 'the key is not the one that it was made with, or its beginning was changed'
        : `it was changed or cut off behind byte ${header.length + place * (chunkBytes + tagBytes)}`
    throw new StoreError(`The backup ${file} cannot be read: ${says}. Use another backup, or its own key`, {
      cause: error,
    })
  }
}

/** The key is used for one file alone, so a count is enough; the last byte keeps a file from being cut off unseen. */
function nonceOf(place: number, last: boolean): Buffer {
  const nonce = Buffer.alloc(12)
  nonce.writeUIntBE(place, 5, 6)
  nonce[11] = last ? 1 : 0
  return nonce
}

/** Pieces of one size; the last may be shorter. */
async function* pieces(content: AsyncIterable<Buffer>, size: number): AsyncGenerator<{ piece: Buffer; last: boolean }> {
  let held: Buffer[] = []
  let bytes = 0
  for await (const chunk of content) {
    held.push(chunk)
    bytes += chunk.length
    if (bytes <= size) continue
    let all = Buffer.concat(held)
    // One piece is held back, since only the end tells which is the last.
    while (all.length > size) {
      yield { piece: all.subarray(0, size), last: false }
      all = all.subarray(size)
    }
    held = [all]
    bytes = all.length
  }
  yield { piece: Buffer.concat(held), last: true }
}
