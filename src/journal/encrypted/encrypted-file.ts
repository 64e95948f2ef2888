import { createReadStream, createWriteStream, openSync, readSync, closeSync } from 'node:fs'
import { Readable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { createGunzip, createGzip } from 'node:zlib'
import { StoreError } from '../store-error.ts'
import { decryptedChunks, encryptedChunks } from './chunks.ts'
import { EncryptedHeader, mostHeaderBytes } from './header.ts'
import { derivedKey, newDerivation, type Secret } from './secret.ts'

const begin = '{"format":"nilgrowth encrypted backup"'
const chunkBytes = 65_536

export type EncryptedAbout = Pick<EncryptedHeader, 'madeAt' | 'heads' | 'content'>

/** Writes a file encrypted into a new one, piece by piece, and syncs it. */
export async function encryptFile(
  { from, to }: { readonly from: string; readonly to: string },
  about: EncryptedAbout,
  secret: Secret,
): Promise<void> {
  const header: EncryptedHeader = {
    format: 'nilgrowth encrypted backup',
    version: 1,
    ...about,
    compression: 'gzip',
    cipher: 'aes-256-gcm',
    chunkBytes,
    key: newDerivation(secret),
  }
  const line = Buffer.from(`${JSON.stringify(header)}\n`, 'utf8')
  const key = derivedKey(secret, header.key)
  const compressed = createReadStream(from).on('error', (error) => zip.destroy(error))
  const zip = createGzip()
  compressed.pipe(zip)
  await pipeline(
    Readable.from(withHeader(line, encryptedChunks(zip, { key, header: line, chunkBytes })), { objectMode: true }),
    createWriteStream(to, { flags: 'wx', flush: true }),
  )
}

/** Reads an encrypted file into a new one for its owner alone. */
export async function decryptFile(
  { from, to }: { readonly from: string; readonly to: string },
  secret: Secret,
): Promise<EncryptedHeader> {
  const { header, line } = readHeader(from)
  const key = derivedKey(secret, header.key)
  const content = createReadStream(from, { start: line.length })
  await pipeline(
    Readable.from(decryptedChunks(from, content, { key, header: line, chunkBytes: header.chunkBytes })),
    createGunzip(),
    createWriteStream(to, { flags: 'wx', mode: 0o600 }),
  )
  return header
}

export function isEncrypted(file: string): boolean {
  return firstBytes(file, begin.length).toString('latin1') === begin
}

/** What can be known of an encrypted backup without its key. It is proven only when the content is read. */
export function encryptedAbout(file: string): EncryptedHeader {
  return readHeader(file).header
}

function readHeader(file: string): { header: EncryptedHeader; line: Buffer } {
  const bytes = firstBytes(file, mostHeaderBytes)
  const end = bytes.indexOf('\n')
  const line = bytes.subarray(0, end + 1)
  const header = parsedHeader(line.toString('utf8'))
  if (header === undefined) {
    throw new StoreError(`The header of the backup ${file} cannot be read: it is damaged, or of a newer version`)
  }
  return { header, line }
}

function parsedHeader(text: string): EncryptedHeader | undefined {
  try {
    return EncryptedHeader.safeParse(JSON.parse(text)).data
  } catch {
    return undefined
  }
}

function firstBytes(file: string, most: number): Buffer {
  const bytes = Buffer.alloc(most)
  const handle = openSync(file, 'r')
  try {
    return bytes.subarray(0, readSync(handle, bytes))
  } finally {
    closeSync(handle)
  }
}

async function* withHeader(line: Buffer, chunks: AsyncIterable<Buffer>): AsyncGenerator<Buffer> {
  yield line
  yield* chunks
}
