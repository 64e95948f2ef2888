import { createHash } from 'node:crypto'
import { type KeptEntry, SentEntry } from '#road/entry.ts'
import { canonicalJson } from './canonical-json.ts'
import { writtenJson } from './store-trouble.ts'

/** What the first entry of a site names as the hash before it. */
export const hashBeforeFirst = '0'.repeat(64)

/** A kept entry as the chain stores it: the text that was hashed, and its hash. */
export interface ChainLink {
  readonly text: string
  readonly hash: string
}

/** SHA-256 of the UTF-8 bytes of a text, in lower-case hexadecimal. */
export function hashOfText(text: string): string {
  return createHash('sha256').update(text, 'utf8').digest('hex')
}

/** Writes the text of an entry once and hashes it. From here on only the text is stored and re-read. */
export function sealEntry(entry: Omit<KeptEntry, 'hash'>): ChainLink {
  const text = canonicalJson(entry)
  return { text, hash: hashOfText(text) }
}

/** Reads an entry back from its stored text. The text was checked when it was written; `verify` checks it again. */
export function entryOfText({ text, hash }: ChainLink): KeptEntry {
  return { ...(writtenJson(text, 'the text of an entry') as Omit<KeptEntry, 'hash'>), hash }
}

const sentFields = Object.keys(SentEntry.shape)

/** Whether two entries say the same, leaving out what the journal added. Decides between a repeat and a clash of ids. */
export function sayTheSame(a: SentEntry, b: SentEntry): boolean {
  return canonicalJson(sentPart(a)) === canonicalJson(sentPart(b))
}

function sentPart(entry: SentEntry): Record<string, unknown> {
  return Object.fromEntries(sentFields.map((field) => [field, Reflect.get(entry, field) as unknown]))
}
