import type { SiteId } from '#road/entry.ts'
import type { ChainLink } from './chain.ts'
import { exportHeader } from './export-format.ts'
import { selectHeads } from './head.ts'
import { selectChain } from './select-entries.ts'
import { identityLines } from './identities/lines.ts'
import { movedLines } from './move/moved-lines.ts'
import { selectSeals } from './seal/seal-rows.ts'
import type { Db } from './tables.ts'

const entriesAtOnce = 500

/** The lines of a backup: those of an export, who the patients are, still encrypted, and which sites were moved away. */
export async function* backupLines(db: Db): AsyncIterable<string> {
  yield* exportLines(db)
  yield* identityLines(db)
  yield* movedLines(db)
}

/** The lines of an export, without their line ends. Reads page by page, so that a large record needs little memory. */
export async function* exportLines(db: Db): AsyncIterable<string> {
  // The sites' lengths are read first: the entries kept while the export runs are left for the next one, so that
  // no entry is given whose attachment is not.
  const heads = await selectHeads(db)
  const sealsBefore = await selectSeals(db, {})
  yield JSON.stringify(exportHeader)
  yield* attachmentLines(db)
  for (const { site, seq } of heads) yield* entryLines(db, site, seq)
  for (const seal of sealsBefore.toReversed()) yield JSON.stringify({ seal })
}

/**
 * The lines of one site alone. Of the attachments, which are kept once for all sites, those that its entries name; all
 * of them where no other site is.
 */
export async function* siteLines(db: Db, site: SiteId): AsyncIterable<string> {
  const heads = await selectHeads(db)
  const last = heads.find((head) => head.site === site)?.seq ?? 0
  const sealsBefore = await selectSeals(db, { site })
  yield JSON.stringify(exportHeader)
  yield* attachmentLines(db, heads.length === 1 ? undefined : await digestsIn(db, site, last))
  yield* entryLines(db, site, last)
  for (const seal of sealsBefore.toReversed()) yield JSON.stringify({ seal })
}

async function* entryLines(db: Db, site: SiteId, last: number): AsyncIterable<string> {
  for await (const { text, hash } of entryTexts(db, site, last)) yield JSON.stringify({ text, hash })
}

async function* entryTexts(db: Db, site: SiteId, last: number): AsyncIterable<ChainLink> {
  for (let afterSeq = 0; afterSeq < last; afterSeq += entriesAtOnce) {
    const limit = Math.min(entriesAtOnce, last - afterSeq)
    yield* await selectChain(db, site, { afterSeq, limit })
  }
}

/**
 * Whatever in the texts could be a digest, so that a file is also found which an entry of a newer version names. A hash
 * that is none names no attachment.
 */
async function digestsIn(db: Db, site: SiteId, last: number): Promise<ReadonlySet<string>> {
  const digests = new Set<string>()
  for await (const { text } of entryTexts(db, site, last)) {
    for (const [digest] of text.matchAll(/(?<!"previousHash":")\b[0-9a-f]{64}\b/g)) digests.add(digest)
  }
  return digests
}

async function* attachmentLines(db: Db, only?: ReadonlySet<string>): AsyncIterable<string> {
  let after = ''
  while (true) {
    const row = await db
      .selectFrom('attachment')
      .selectAll()
      .where('digest', '>', after)
      .orderBy('digest')
      .limit(1)
      .executeTakeFirst()
    if (row === undefined) return
    after = row.digest
    if (only?.has(row.digest) === false) continue
    const base64 = Buffer.from(row.bytes).toString('base64')
    yield JSON.stringify({ attachment: row.digest, mediaType: row.media_type, base64 })
  }
}
