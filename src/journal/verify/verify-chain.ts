import { setImmediate } from 'node:timers/promises'
import type { KeptEntry, SiteId } from '#road/entry.ts'
import type { ChainHead } from '../engine.ts'
import { chainStart, readHead } from '../head.ts'
import { readKept } from '../read-kept.ts'
import type { Db, EntryRow } from '../tables.ts'
import type { Fault } from './fault.ts'

const rowsAtOnce = 1000

/** Walks the chain of a site from its first entry to its head, page by page. Gives the first fault. */
export async function verifyChain(db: Db, site: SiteId): Promise<{ fault?: Fault; count: number }> {
  let head: ChainHead = chainStart
  while (true) {
    const rows = await selectRows(db, site, head.seq)
    for (const row of rows) {
      const read = readRow(row, head)
      if (typeof read === 'string') {
        return { count: head.seq, fault: { part: 'chain', site, seq: row.seq, id: row.id, says: read } }
      }
      head = read
    }
    if (rows.length < rowsAtOnce) return { count: head.seq, ...(await verifyHead(db, site, head)) }
    // Lets other work of the same process in between.
    await setImmediate()
  }
}

async function selectRows(db: Db, site: SiteId, afterSeq: number): Promise<EntryRow[]> {
  return await db
    .selectFrom('entry')
    .selectAll()
    .where('site', '=', site)
    .where('seq', '>', afterSeq)
    .orderBy('seq')
    .limit(rowsAtOnce)
    .execute()
}

/** The entry of a row when it is what must come after `head`; else what is wrong with it. */
function readRow(row: EntryRow, head: ChainHead): KeptEntry | string {
  if (row.seq !== head.seq + 1) return `wanted entry ${head.seq + 1} here: an entry was removed or added`
  const read = readKept(row)
  if (read.kind === 'wrong') return read.says
  const { entry } = read
  if (entry.previousHash !== head.hash)
    return 'it does not name the hash of the entry before it: one of the two was altered, or one between them was removed or added'
  if (head.recordedAt !== undefined && entry.recordedAt < head.recordedAt) {
    return `it was recorded at ${entry.recordedAt}, before the entry before it, at ${head.recordedAt}`
  }
  return columnThatDiffers(row, entry) ?? entry
}

function columnThatDiffers(row: EntryRow, entry: KeptEntry): string | undefined {
  const columns: readonly (readonly [string, unknown, unknown])[] = [
    ['site', row.site, entry.site],
    ['seq', row.seq, entry.seq],
    ['id', row.id, entry.id],
    ['kind', row.kind, entry.kind],
    ['happenedAt', row.happened_at, entry.happenedAt],
    ['recordedAt', row.recorded_at, entry.recordedAt],
    ['corrects', row.corrects ?? undefined, entry.corrects],
  ]
  const differing = columns.find(([, column, text]) => column !== text)
  if (differing === undefined) return undefined
  const [name, column, text] = differing
  return `its column ${name} is ${String(column)}, but its text says ${String(text)}`
}

async function verifyHead(db: Db, site: SiteId, last: ChainHead): Promise<{ fault?: Fault }> {
  const head = await readHead(db, site)
  if ((head?.seq ?? 0) === last.seq && (head?.hash ?? chainStart.hash) === last.hash) return {}
  const stored = head === undefined ? 'missing' : `entry ${head.seq}, ${head.hash}`
  const ends = `the chain ends at entry ${last.seq}, ${last.hash}`
  return { fault: { part: 'head', site, says: `${ends}, but the stored head is ${stored}` } }
}
