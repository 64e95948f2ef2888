import { exportHeader } from './export-format.ts'
import { selectChain } from './select-entries.ts'
import { selectSeals } from './seal/seal-rows.ts'
import type { Db } from './tables.ts'

const entriesAtOnce = 500

/** The lines of an export, without their line ends. Reads page by page, so that a large record needs little memory. */
export async function* exportLines(db: Db): AsyncIterable<string> {
  // The sites' lengths are read first: the entries kept while the export runs are left for the next one, so that
  // no entry is given whose attachment is not.
  const heads = await db.selectFrom('head').select(['site', 'seq']).orderBy('site').execute()
  const sealsBefore = await selectSeals(db, {})
  yield JSON.stringify(exportHeader)
  yield* attachmentLines(db)
  for (const { site, seq: last } of heads) {
    for (let afterSeq = 0; afterSeq < last; afterSeq += entriesAtOnce) {
      const limit = Math.min(entriesAtOnce, last - afterSeq)
      for (const { text, hash } of await selectChain(db, site, { afterSeq, limit }))
        yield JSON.stringify({ text, hash })
    }
  }
  for (const seal of sealsBefore.toReversed()) yield JSON.stringify({ seal })
}

async function* attachmentLines(db: Db): AsyncIterable<string> {
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
    const base64 = Buffer.from(row.bytes).toString('base64')
    yield JSON.stringify({ attachment: row.digest, mediaType: row.media_type, base64 })
    after = row.digest
  }
}
