import { AttachmentDigest } from '#road/attachment.ts'
import type { SiteId } from '#road/entry.ts'
import type { Road } from '#road/road.ts'
import { asOf } from './as-of.ts'
import { entryOfText } from './chain.ts'
import { readHead } from './head.ts'
import type { Attachment, Reader } from './journal.ts'
import { selectChain, selectEntriesAbout, selectEntry } from './select-entries.ts'
import { selectKnown, selectKnownOfKind, selectStanding } from './select-known.ts'
import { selectLinks } from './select-links.ts'
import type { Db } from './tables.ts'

/** Reads one site. */
export function readerOf(db: Db, site: SiteId, road: Road): Reader {
  return {
    site,
    known: (ids) => selectKnown(db, site, ids),
    links: (query) => selectLinks(db, site, query),
    standing: (kind, standings) => selectStanding(db, site, { kind, standings }),
    head: () => readHead(db, site),
    entry: (id) => selectEntry(db, site, id),
    entries: async (page) => (await selectChain(db, site, page)).map(entryOfText),
    entriesAbout: (subject, page) => selectEntriesAbout(db, site, { subject, ...page }),
    knownOfKind: (kind, query) => selectKnownOfKind(db, site, { kind, ...query }),
    asOf: (seq) => asOf(db, { site, road, seq }),
    attachment: (digest) => selectAttachment(db, digest),
  }
}

async function selectAttachment(db: Db, digest: AttachmentDigest): Promise<Attachment | undefined> {
  const row = await db.selectFrom('attachment').selectAll().where('digest', '=', digest).executeTakeFirst()
  return row && { digest: AttachmentDigest.parse(row.digest), mediaType: row.media_type, bytes: row.bytes }
}
