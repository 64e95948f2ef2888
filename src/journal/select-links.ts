import type { SiteId } from '#road/entry.ts'
import type { Link } from '#road/link.ts'
import type { LinkQuery } from '#road/look.ts'
import { chunks, rowsPerStatement } from './chunks.ts'
import type { Db, LinkRow } from './tables.ts'

/** Answers a question about links, in an order that is the same on both engines. */
export async function selectLinks(db: Db, site: SiteId, query: LinkQuery): Promise<readonly Link[]> {
  const pieces = chunks(query.subjects, rowsPerStatement)
  const rows: LinkRow[] = []
  for (const subjects of pieces) rows.push(...(await selectPiece(db, site, { ...query, subjects })))
  if (pieces.length > 1) rows.sort((a, b) => compareRows(a, b) * (query.order === 'newestFirst' ? -1 : 1))
  return (query.limit === undefined ? rows : rows.slice(0, query.limit)).map(linkOf)
}

function selectPiece(db: Db, site: SiteId, query: LinkQuery): Promise<LinkRow[]> {
  const direction = query.order === 'newestFirst' ? 'desc' : 'asc'
  let select = db
    .selectFrom('link')
    .selectAll()
    .where('site', '=', site)
    .where(query.end === 'from' ? 'from_subject' : 'to_subject', 'in', query.subjects)
  if (query.relations !== undefined) {
    if (query.relations.length === 0) return Promise.resolve([])
    select = select.where('relation', 'in', query.relations)
  }
  if (query.since !== undefined) select = select.where('at', '>=', query.since)
  if (query.until !== undefined) select = select.where('at', '<=', query.until)
  for (const column of orderColumns) select = select.orderBy(column, direction)
  return (query.limit === undefined ? select : select.limit(query.limit)).execute()
}

const orderColumns = ['at', 'entry', 'from_subject', 'relation', 'to_subject'] as const

function compareRows(a: LinkRow, b: LinkRow): number {
  for (const column of orderColumns) if (a[column] !== b[column]) return a[column] < b[column] ? -1 : 1
  return 0
}

function linkOf(row: LinkRow): Link {
  return { from: row.from_subject, relation: row.relation, to: row.to_subject, at: row.at, entry: row.entry }
}
