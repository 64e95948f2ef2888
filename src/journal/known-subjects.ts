import { type SiteId, compareForFold } from '#road/entry.ts'
import type { TypedKept } from '#road/kinds.ts'
import type { Road } from '#road/road.ts'
import { type SubjectId, type SubjectKind, isSubjectOf } from '#road/subject.ts'
import { chunks, rowsPerStatement } from './chunks.ts'
import { type KnownRecord, comesAfter, foldStep } from './folding.ts'
import { knownRecordOf, knownRowOf } from './known-row.ts'
import { type FoldPoint, type MilestoneRow, insertMilestones, isMilestone, milestoneOf } from './milestones.ts'
import { refoldSubject } from './refold-subject.ts'
import type { Db, KnownTableRow } from './tables.ts'

/**
 * What is known within one transaction: read once, folded on in memory, written back once. A subject with a
 * late or corrected entry is only marked, and refolded when somebody asks or at the end.
 */
export class KnownSubjects {
  readonly #db: Db
  readonly #site: SiteId
  readonly #road: Road
  readonly #writeEntries: () => Promise<void>
  readonly #records = new Map<SubjectId, KnownRecord | undefined>()
  readonly #unwritten = new Set<SubjectId>()
  /** Subjects to refold, each from its first late entry, or from the beginning. */
  readonly #stale = new Map<SubjectId, FoldPoint | 'beginning'>()
  #milestones: MilestoneRow[] = []

  /** `writeEntries` puts into the database what a refold has to read. */
  constructor(place: { db: Db; site: SiteId; road: Road }, writeEntries: () => Promise<void>) {
    this.#db = place.db
    this.#site = place.site
    this.#road = place.road
    this.#writeEntries = writeEntries
  }

  /** Reads ahead, so that a batch asks once. */
  async load(ids: Iterable<SubjectId>): Promise<void> {
    const missing = [...new Set(ids)].filter((id) => !this.#records.has(id))
    for (const piece of chunks(missing, rowsPerStatement)) {
      for (const id of piece) this.#records.set(id, undefined)
      const rows = await this.#db
        .selectFrom('known')
        .select(['subject', 'standing', 'since', 'state', 'folded_at', 'folded_id', 'entries'])
        .where('site', '=', this.#site)
        .where('subject', 'in', piece)
        .execute()
      for (const row of rows) this.#records.set(row.subject, knownRecordOf(row))
    }
  }

  async get<K extends SubjectKind>(ids: readonly SubjectId<K>[]): Promise<Map<SubjectId<K>, KnownRecord>> {
    await this.load(ids)
    await this.#refold(ids.filter((id) => this.#stale.has(id)))
    const found = new Map<SubjectId<K>, KnownRecord>()
    for (const id of ids) {
      const record = this.#records.get(id)
      if (record !== undefined) found.set(id, record)
    }
    return found
  }

  /** Which of these are known. A late entry alone needs no refold for that: its subject is known by it. */
  async which(ids: readonly SubjectId[]): Promise<ReadonlySet<SubjectId>> {
    await this.load(ids)
    await this.#refold(ids.filter((id) => this.#stale.get(id) === 'beginning'))
    return new Set(ids.filter((id) => this.#records.get(id) !== undefined))
  }

  /** Folds an entry that has just been kept into a subject that it is about. */
  async step(subject: SubjectId, entry: TypedKept): Promise<void> {
    await this.load([subject])
    const stale = this.#stale.get(subject)
    if (stale !== undefined) {
      if (stale !== 'beginning' && compareForFold(entry, stale) < 0) this.#stale.set(subject, entry)
      return
    }
    const before = this.#records.get(subject)
    if (before !== undefined && !comesAfter(before, entry)) {
      this.#stale.set(subject, entry)
      return
    }
    const record = foldStep(this.#road, subject, { before, entry })
    if (isMilestone(record)) this.#milestones.push(milestoneOf(this.#site, subject, record))
    this.#records.set(subject, record)
    this.#unwritten.add(subject)
  }

  /** Has the subject folded anew from all its entries. */
  markStale(subject: SubjectId): void {
    this.#stale.set(subject, 'beginning')
  }

  /** Writes what has changed, of one kind of subject or of all. */
  async write(kind?: SubjectKind): Promise<void> {
    const wanted = (id: SubjectId) => kind === undefined || isSubjectOf(kind, id)
    await this.#refold([...this.#stale.keys()].filter(wanted))
    await this.#writeMilestones()
    const ids = [...this.#unwritten].filter(wanted)
    for (const piece of chunks(ids, rowsPerStatement)) await this.#writePiece(piece)
    for (const id of ids) this.#unwritten.delete(id)
  }

  async #refold(ids: readonly SubjectId[]): Promise<void> {
    if (ids.length === 0) return
    await this.#writeEntries()
    // Before a refold, which removes those that no longer hold.
    await this.#writeMilestones()
    const place = { db: this.#db, site: this.#site, road: this.#road }
    for (const id of ids) {
      const from = this.#stale.get(id)
      this.#records.set(id, await refoldSubject(place, id, from === 'beginning' ? undefined : from))
      this.#stale.delete(id)
      this.#unwritten.add(id)
    }
  }

  async #writeMilestones(): Promise<void> {
    const rows = this.#milestones
    this.#milestones = []
    await insertMilestones(this.#db, rows)
  }

  async #writePiece(ids: readonly SubjectId[]): Promise<void> {
    const rows: KnownTableRow[] = []
    const gone: SubjectId[] = []
    for (const id of ids) {
      const record = this.#records.get(id)
      if (record === undefined) gone.push(id)
      else rows.push(knownRowOf(this.#site, id, record))
    }
    if (gone.length > 0) {
      await this.#db.deleteFrom('known').where('site', '=', this.#site).where('subject', 'in', gone).execute()
    }
    if (rows.length === 0) return
    await this.#db
      .insertInto('known')
      .values(rows)
      .onConflict((conflict) =>
        conflict.columns(['site', 'subject']).doUpdateSet((row) => ({
          standing: row.ref('excluded.standing'),
          since: row.ref('excluded.since'),
          state: row.ref('excluded.state'),
          folded_at: row.ref('excluded.folded_at'),
          folded_id: row.ref('excluded.folded_id'),
          entries: row.ref('excluded.entries'),
        })),
      )
      .execute()
  }
}
