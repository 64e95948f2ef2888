import type { SiteId } from '#road/entry.ts'
import { type SubjectId, subjectKind } from '#road/subject.ts'
import { canonicalJson } from './canonical-json.ts'
import type { KnownRecord } from './folding.ts'
import { writtenJson } from './store-trouble.ts'
import type { KnownTableRow } from './tables.ts'

export function knownRecordOf(row: Omit<KnownTableRow, 'site' | 'subject' | 'kind'>): KnownRecord {
  return {
    standing: row.standing,
    since: row.since,
    state: writtenJson(row.state, 'what is known of a subject'),
    foldedAt: row.folded_at,
    foldedId: row.folded_id,
    entries: row.entries,
  }
}

export function knownRowOf(site: SiteId, subject: SubjectId, record: KnownRecord): KnownTableRow {
  return {
    site,
    subject,
    kind: subjectKind(subject),
    standing: record.standing,
    since: record.since,
    // Canonical, so that two ways to the same state are seen to be equal.
    state: canonicalJson(record.state),
    folded_at: record.foldedAt,
    folded_id: record.foldedId,
    entries: record.entries,
  }
}
