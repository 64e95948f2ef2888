import { compareForFold, type EntryId, type SentEntry } from '#road/entry.ts'
import { effectiveEntries, foldSteps, isRemembered } from '#road/fold.ts'
import type { Finding } from '#road/finding.ts'
import type { Instant } from '#road/instant.ts'
import type { TypedKept, TypedSent } from '#road/kinds.ts'
import { folds, type KnownOf } from '#road/known.ts'
import type { Link } from '#road/link.ts'
import type { LinkQuery, Look } from '#road/look.ts'
import { about, readEntry } from '#road/read-entry.ts'
import { type SubjectId, type SubjectKind, subjectKind } from '#road/subject.ts'
import { theRoad } from '#road/the-road.ts'

/** What came of an entry that was sent to a memory record. */
export interface Answer {
  readonly kept: boolean
  readonly findings: readonly Finding[]
}

/**
 * A record in memory that does what a journal does, as plainly as it can be done: it keeps entries, folds their
 * subjects with the real folds, keeps the links of what stands, and answers the rules. For tests of the road.
 */
export class MemoryRecord implements Look {
  readonly entries: TypedKept[] = []
  readonly #byId = new Map<EntryId, TypedKept>()
  /** Of each entry: the first of its chain of corrections. */
  readonly #root = new Map<EntryId, EntryId>()
  readonly #family = new Map<EntryId, TypedKept[]>()
  readonly #subjects = new Map<SubjectId, { entries: TypedKept[]; last: TypedKept | undefined; state: unknown }>()
  readonly #links = { from: new Map<SubjectId, Link[]>(), to: new Map<SubjectId, Link[]>() }
  readonly #standing = new Map<string, Set<SubjectId>>()
  readonly #stands = new Map<SubjectId, string>()

  /** Sends an entry as a screen does: the rules judge it, and a refused decision is not kept. */
  async send(sent: SentEntry, now: Instant = sent.happenedAt): Promise<Answer> {
    return await this.decide(typedOf(sent), now)
  }

  /** The same for an entry whose body has been checked. */
  async decide(typed: TypedSent, now: Instant = typed.happenedAt): Promise<Answer> {
    const { findings, refused } = await theRoad.judge(this, typed, now)
    if (!refused) this.keep(typed, now, findings)
    return { kept: !refused, findings }
  }

  /** Keeps an entry without asking the rules. */
  keep(typed: TypedSent, recordedAt: Instant = typed.happenedAt, findings: readonly Finding[] = []): void {
    const kept = {
      ...typed,
      seq: this.entries.length + 1,
      recordedAt,
      judgement: { policy: 'defaults', findings: [...findings] },
      previousHash: '',
      hash: '',
    } as TypedKept
    this.entries.push(kept)
    this.#byId.set(kept.id, kept)
    const root = kept.corrects === undefined ? kept.id : (this.#root.get(kept.corrects) ?? kept.corrects)
    this.#root.set(kept.id, root)
    const family = [...(this.#family.get(root) ?? []), kept]
    this.#family.set(root, family)
    if (family.length === 1) this.#takeIn(kept)
    else this.#takeInAnew(family)
  }

  #takeIn(kept: TypedKept): void {
    for (const subject of new Set(about(kept).subjects)) {
      const held = this.#subjects.get(subject) ?? { entries: [], last: undefined, state: undefined }
      held.entries.push(kept)
      this.#subjects.set(subject, held)
      if (held.last === undefined || compareForFold(kept, held.last) > 0) {
        const fold = folds[subjectKind(subject)]
        held.state = fold.evolve(held.state ?? fold.begin(subject), kept)
        held.last = kept
        this.#setStanding(subject, held.state)
      } else {
        this.#refold(subject)
      }
    }
    this.#addLinks(kept)
  }

  /** A correction: all that its family ever was about is folded anew, and only the links of what stands remain. */
  #takeInAnew(family: readonly TypedKept[]): void {
    const newest = family.at(-1)
    const subjects = new Set(family.flatMap((entry) => about(entry).subjects))
    const ids = new Set<EntryId>(family.map((entry) => entry.id))
    for (const entry of family) this.#dropLinks(entry, ids)
    for (const entry of effectiveEntries(family)) this.#addLinks(entry)
    for (const subject of subjects) {
      const held = this.#subjects.get(subject) ?? { entries: [], last: undefined, state: undefined }
      const here = new Set(held.entries)
      held.entries.push(...family.filter((entry) => !here.has(entry)))
      this.#subjects.set(subject, held)
      if (newest !== undefined) this.#refold(subject)
    }
  }

  #refold(subject: SubjectId): void {
    const held = this.#subjects.get(subject)
    if (held === undefined) return
    const { state, last } = refolded(subject, held.entries)
    held.state = state
    held.last = last
    this.#setStanding(subject, state)
  }

  #setStanding(subject: SubjectId, state: unknown): void {
    const kind = subjectKind(subject)
    const before = this.#stands.get(subject)
    const now = state === undefined ? undefined : `${kind} ${folds[kind].standing(state)}`
    if (before === now) return
    if (before !== undefined) this.#standing.get(before)?.delete(subject)
    if (now === undefined) {
      this.#stands.delete(subject)
      return
    }
    this.#stands.set(subject, now)
    const all = this.#standing.get(now)
    if (all === undefined) this.#standing.set(now, new Set([subject]))
    else all.add(subject)
  }

  #addLinks(entry: TypedKept): void {
    const { links, subjects } = about(entry)
    const main = subjects[0]
    const author =
      main === undefined || main === entry.by ? [] : [{ from: main, relation: 'by', to: entry.by } as const]
    for (const seed of [...links, ...author]) {
      const link: Link = { ...seed, at: entry.happenedAt, entry: entry.id }
      insert(this.#links.from, link.from, link)
      insert(this.#links.to, link.to, link)
    }
  }

  #dropLinks(entry: TypedKept, family: ReadonlySet<EntryId>): void {
    const ends = about(entry).links
    const touched = new Set<SubjectId>([
      ...about(entry).subjects,
      entry.by,
      ...ends.flatMap(({ from, to }) => [from, to]),
    ])
    for (const subject of touched) {
      for (const side of [this.#links.from, this.#links.to]) {
        const held = side.get(subject)
        if (held !== undefined)
          side.set(
            subject,
            held.filter((link) => !family.has(link.entry)),
          )
      }
    }
  }

  async known<K extends SubjectKind>(ids: readonly SubjectId<K>[]): Promise<ReadonlyMap<SubjectId<K>, KnownOf<K>>> {
    const found = new Map<SubjectId<K>, KnownOf<K>>()
    for (const id of ids) {
      const state = this.#subjects.get(id)?.state
      if (state !== undefined) found.set(id, state as KnownOf<K>)
    }
    return found
  }

  async links(query: LinkQuery): Promise<readonly Link[]> {
    const side = this.#links[query.end]
    const newest = query.order === 'newestFirst'
    const relations = query.relations === undefined ? undefined : new Set<string>(query.relations)
    const found: Link[] = []
    for (const subject of new Set(query.subjects)) {
      const held = side.get(subject) ?? []
      let taken = 0
      const [from, to] = span(held, query)
      for (let step = 0; step < to - from; step += 1) {
        const link = held[newest ? to - 1 - step : from + step]
        if (link === undefined || relations?.has(link.relation) === false) continue
        found.push(link)
        taken += 1
        if (taken === query.limit) break
      }
    }
    found.sort((a, b) => (newest ? compareLinks(b, a) : compareLinks(a, b)))
    return query.limit === undefined ? found : found.slice(0, query.limit)
  }

  async standing<K extends SubjectKind>(kind: K, standings: readonly string[]): Promise<readonly KnownOf<K>[]> {
    const ids = standings.flatMap((each) => [...(this.#standing.get(`${kind} ${each}`) ?? [])])
    return [...(await this.known(ids as SubjectId<K>[])).values()]
  }

  /** The entries that were here before this one came. */
  entriesBefore(entry: TypedSent): readonly TypedKept[] {
    return this.entries.at(-1)?.id === entry.id ? this.entries.slice(0, -1) : this.entries
  }

  /** Every entry that a subject's fold may read, corrections and what they correct included. */
  entriesOf(subject: SubjectId): readonly TypedKept[] {
    return this.#subjects.get(subject)?.entries ?? []
  }

  /** All that is known, for tests that compare two records. */
  everything(): ReadonlyMap<SubjectId, unknown> {
    return new Map([...this.#subjects].map(([subject, held]) => [subject, held.state]))
  }
}

/** The state of a subject from all its entries, in whatever order they came. */
export function refolded(
  subject: SubjectId,
  entries: readonly TypedKept[],
): { readonly state: unknown; readonly last: TypedKept | undefined } {
  const fold = folds[subjectKind(subject)]
  let state: unknown
  let last: TypedKept | undefined
  const steps = foldSteps(entries)
  for (const step of steps) {
    const { entry } = step
    // A correction may have moved an entry to another subject: then it says nothing of this one.
    if (!about(entry).subjects.includes(subject)) continue
    if (step.kind === 'takenBack') {
      const standsHere = () =>
        steps.some(
          (each) =>
            each.kind === 'stands' && each.entry.id === step.instead && about(each.entry).subjects.includes(subject),
        )
      if (fold.takeBack === undefined || !isRemembered(fold, state !== undefined, standsHere)) continue
      state = fold.takeBack(state ?? fold.begin(subject), entry, step.instead)
    } else {
      state = fold.evolve(state ?? fold.begin(subject), entry)
    }
    last = entry
  }
  return { state, last }
}

export function typedOf(sent: SentEntry): TypedSent {
  const read = readEntry(sent)
  if (read.kind !== 'typed') throw new Error(`A test sent an unusable entry: ${JSON.stringify({ read, sent })}`)
  return read.entry
}

function insert(side: Map<SubjectId, Link[]>, subject: SubjectId, link: Link): void {
  const held = side.get(subject)
  if (held === undefined) {
    side.set(subject, [link])
    return
  }
  let at = 0
  let end = held.length
  while (at < end) {
    const middle = (at + end) >> 1
    const there = held[middle]
    if (there !== undefined && compareLinks(there, link) <= 0) at = middle + 1
    else end = middle
  }
  held.splice(at, 0, link)
}

const linkOrder = ['at', 'entry', 'from', 'relation', 'to'] as const

function compareLinks(a: Link, b: Link): number {
  for (const field of linkOrder) if (a[field] !== b[field]) return a[field] < b[field] ? -1 : 1
  return 0
}

/** Where the links of a time span begin and end in a list that is in order. */
function span(links: readonly Link[], { since, until }: LinkQuery): readonly [number, number] {
  const first = (after: (at: Instant) => boolean): number => {
    let low = 0
    let high = links.length
    while (low < high) {
      const middle = (low + high) >> 1
      const link = links[middle]
      if (link !== undefined && after(link.at)) high = middle
      else low = middle + 1
    }
    return low
  }
  return [
    since === undefined ? 0 : first((at) => at >= since),
    until === undefined ? links.length : first((at) => at > until),
  ]
}
