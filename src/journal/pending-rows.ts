import type { KeptEntry } from '#road/entry.ts'
import type { LinkSeed } from '#road/kind.ts'
import type { LinkQuery } from '#road/look.ts'
import type { SubjectId } from '#road/subject.ts'
import { chunks, rowsPerStatement } from './chunks.ts'
import type { AboutRow, Db, EntryRow, LinkRow } from './tables.ts'

/** Rows that a transaction has made and not yet sent to the database. */
export class PendingRows {
  #entries: EntryRow[] = []
  #about: AboutRow[] = []
  #links: LinkRow[] = []
  readonly #linked = { from: new Set<SubjectId>(), to: new Set<SubjectId>() }

  addEntry(entry: KeptEntry, text: string): void {
    this.#entries.push(entryRowOf(entry, text))
  }

  addAbout(entry: KeptEntry, subjects: readonly SubjectId[]): void {
    const { site, happenedAt: happened_at, id, seq } = entry
    for (const subject of subjects) this.#about.push({ site, subject, happened_at, id, seq })
  }

  addLinks(entry: Pick<KeptEntry, 'site' | 'happenedAt' | 'id'>, links: readonly LinkSeed[]): void {
    for (const { from, relation, to } of links) {
      const row = { from_subject: from, relation, to_subject: to, at: entry.happenedAt, entry: entry.id }
      this.#links.push({ site: entry.site, ...row })
      this.#linked.from.add(from)
      this.#linked.to.add(to)
    }
  }

  /** Whether an answer from the database would miss a link that is still here. */
  touchLinks(query: LinkQuery): boolean {
    return query.subjects.some((subject) => this.#linked[query.end].has(subject))
  }

  async write(db: Db): Promise<void> {
    const [entries, about, links] = [this.#entries, this.#about, this.#links]
    this.#entries = []
    this.#about = []
    this.#links = []
    this.#linked.from.clear()
    this.#linked.to.clear()
    for (const piece of chunks(entries, rowsPerStatement)) await db.insertInto('entry').values(piece).execute()
    // A correction has its whole family written again, and one body may name a subject twice.
    for (const piece of chunks(about, rowsPerStatement)) {
      await db
        .insertInto('about')
        .values(piece)
        .onConflict((conflict) => conflict.doNothing())
        .execute()
    }
    for (const piece of chunks(links, rowsPerStatement)) {
      await db
        .insertInto('link')
        .values(piece)
        .onConflict((conflict) => conflict.doNothing())
        .execute()
    }
  }
}

function entryRowOf(entry: KeptEntry, text: string): EntryRow {
  return {
    site: entry.site,
    seq: entry.seq,
    id: entry.id,
    kind: entry.kind,
    happened_at: entry.happenedAt,
    recorded_at: entry.recordedAt,
    corrects: entry.corrects ?? null,
    text,
    hash: entry.hash,
  }
}
