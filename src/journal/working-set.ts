import type { EntryId, KeptEntry, SiteId } from '#road/entry.ts'
import type { KnownOf } from '#road/known.ts'
import type { Look } from '#road/look.ts'
import type { Road } from '#road/road.ts'
import type { SubjectId, SubjectKind } from '#road/subject.ts'
import { type Family, familyOf, selectFamily } from './family.ts'
import { KnownSubjects } from './known-subjects.ts'
import { liesBySite } from './lies-by-site.ts'
import { PendingRows } from './pending-rows.ts'
import { type Said, whatIsSaid } from './said.ts'
import { selectEntry, selectHolder } from './select-entries.ts'
import { selectLinks } from './select-links.ts'
import { selectStanding } from './select-known.ts'
import type { Db } from './tables.ts'

/**
 * One site within one transaction: answers questions with what the transaction has done so far, and keeps back
 * its rows so that a batch writes them together. Nothing is in the database before `write`.
 */
export class WorkingSet {
  readonly db: Db
  readonly site: SiteId
  readonly road: Road
  readonly known: KnownSubjects
  /** Subjects whose fold or links have changed. */
  readonly changed = new Set<SubjectId>()
  readonly #rows = new PendingRows()
  readonly #keptHere = new Map<EntryId, KeptEntry>()

  constructor(db: Db, site: SiteId, road: Road) {
    this.db = db
    this.site = site
    this.road = road
    this.known = new KnownSubjects({ db, site, road }, () => this.#rows.write(db))
  }

  /** What the rules may ask: the record as this transaction has it so far. */
  readonly look: Look = {
    known: async <K extends SubjectKind>(ids: readonly SubjectId<K>[]) => {
      const records = await this.known.get(ids)
      return new Map([...records].map(([id, record]) => [id, record.state as KnownOf<K>]))
    },
    links: async (query) => {
      if (this.#rows.touchLinks(query)) await this.#rows.write(this.db)
      return await selectLinks(this.db, this.site, query)
    },
    standing: async (kind, standings) => {
      await this.known.write(kind)
      return await selectStanding(this.db, this.site, { kind, standings })
    },
  }

  /** An entry of this site by its id, of this transaction or of the store. */
  async entry(id: EntryId): Promise<KeptEntry | undefined> {
    return this.#keptHere.get(id) ?? (await selectEntry(this.db, this.site, id))
  }

  /** The entry that has an id, of any site. */
  async holder(id: EntryId): Promise<KeptEntry | undefined> {
    return this.#keptHere.get(id) ?? (await selectHolder(this.db, id))
  }

  async family(member: KeptEntry): Promise<Family> {
    await this.#rows.write(this.db)
    return familyOf(this.road, await selectFamily(this.db, member))
  }

  /** Adds a sealed entry and everything that follows from it. */
  async keep(entry: KeptEntry, text: string): Promise<void> {
    this.#keptHere.set(entry.id, entry)
    this.#rows.addEntry(entry, text)
    await this.derive(entry)
  }

  /** Works out what follows from an entry that is kept. */
  async derive(entry: KeptEntry): Promise<void> {
    if (entry.corrects !== undefined) {
      await this.#deriveFamily(entry)
      return
    }
    const said = whatIsSaid(this.road, entry)
    if (said === undefined) return
    this.#rows.addAbout(entry, said.subjects)
    this.#addLinks(said)
    for (const subject of said.subjects) {
      await this.known.step(subject, said.entry)
      this.changed.add(subject)
    }
  }

  async write(): Promise<void> {
    await this.#rows.write(this.db)
    await this.known.write()
  }

  async #deriveFamily(entry: KeptEntry): Promise<void> {
    const family = await this.family(entry)
    for (const member of family.members) this.#rows.addAbout(member, family.subjects)
    await this.db
      .deleteFrom('link')
      .where(
        'entry',
        'in',
        family.members.map((member) => member.id),
      )
      .$if(liesBySite(this.db), (query) => query.where('site', '=', this.site))
      .execute()
    if (family.standing !== undefined) this.#addLinks(family.standing)
    for (const subject of family.subjects) {
      this.known.markStale(subject)
      this.changed.add(subject)
    }
  }

  #addLinks({ entry, links }: Said): void {
    this.#rows.addLinks(entry, links)
    for (const link of links) this.changed.add(link.from).add(link.to)
  }
}
