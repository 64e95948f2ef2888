import { z } from 'zod'
import { EntryId } from '#road/entry.ts'
import { Instant } from '#road/instant.ts'
import { parseSubject, type SubjectId, subjectKind } from '#road/subject.ts'
import type { KnownRow, Reader } from '#journal/journal.ts'
import { subjectOfFhirId } from './fhir-id.ts'
import { type FhirSource, fhirSources } from './fhir-sources.ts'
import type { FhirResource, FhirType } from './resource.ts'

/** Where a page ended: the source, the last subject or entry of it, and how many resources of the next were given. */
const Cursor = z.strictObject({
  source: z.int().min(0).max(8),
  since: Instant.optional(),
  subject: z
    .string()
    .transform((text) => parseSubject(text))
    .optional(),
  seq: z.int().min(0).optional(),
  given: z.int().min(0).max(10_000).default(0),
})
type Cursor = z.infer<typeof Cursor>

const begin: Cursor = { source: 0, given: 0 }

export function readCursor(text: string): Cursor | undefined {
  try {
    return Cursor.safeParse(JSON.parse(Buffer.from(text, 'base64url').toString('utf8'))).data
  } catch {
    return undefined
  }
}

function writeCursor(cursor: Cursor): string {
  return Buffer.from(JSON.stringify(cursor), 'utf8').toString('base64url')
}

interface Step {
  readonly resource: FhirResource
  /** Where to go on after it. */
  readonly next: Cursor
}

const pageSize = 200

/** All resources of a type from a place on, a page of the record at a time. */
export async function* walkFhir(reader: Reader, type: FhirType, from: Cursor = begin): AsyncGenerator<Step> {
  for (const [place, source] of fhirSources[type].entries()) {
    if (place < from.source) continue
    yield* walkSource(reader, source, place === from.source ? from : { source: place, given: 0 })
  }
}

async function* walkSource(reader: Reader, source: FhirSource, from: Cursor): AsyncGenerator<Step> {
  if (source.from === 'entries') {
    let seq = from.seq ?? 0
    for (;;) {
      // A page names the next one.
      // oxlint-disable-next-line no-await-in-loop
      const page = await reader.entries({ afterSeq: seq, limit: pageSize })
      for (const entry of page)
        yield { resource: source.make(entry), next: { source: from.source, seq: entry.seq, given: 0 } }
      const last = page.at(-1)
      if (last === undefined) return
      seq = last.seq
    }
  }
  let at = from
  for (;;) {
    const after =
      at.since === undefined || at.subject === undefined ? {} : { after: { since: at.since, subject: at.subject } }
    // oxlint-disable-next-line no-await-in-loop
    const rows = await reader.knownOfKind(source.from, { limit: pageSize, order: 'oldestFirst', ...after })
    // oxlint-disable-next-line no-await-in-loop
    const made = await source.make(reader, rows)
    for (const [place, row] of rows.entries()) {
      const all = made[place] ?? []
      const done: Cursor = { source: from.source, since: row.since, subject: row.subject, given: 0 }
      for (const [count, resource] of all.entries()) {
        if (count < at.given) continue
        yield { resource, next: count + 1 < all.length ? { ...at, given: count + 1 } : done }
      }
      at = done
    }
    if (rows.length < pageSize) return
  }
}

export interface FhirPage {
  readonly resources: readonly FhirResource[]
  readonly next: string | null
}

/** No more are looked at for one page: what fits may be rare. The page then says where to go on. */
const mostLooked = 5000

export async function fhirPage(
  reader: Reader,
  type: FhirType,
  asked: {
    readonly count: number
    readonly from?: Cursor | undefined
    readonly fits: (resource: FhirResource) => boolean
  },
): Promise<FhirPage> {
  const resources: FhirResource[] = []
  let looked = 0
  let last: Cursor | null = null
  for await (const { resource, next } of walkFhir(reader, type, asked.from)) {
    // One more is looked for than the page holds: only so is it known whether there is another.
    if (last !== null && (resources.length >= asked.count || looked >= mostLooked))
      return { resources, next: writeCursor(last) }
    looked += 1
    if (asked.fits(resource)) resources.push(resource)
    last = next
  }
  return { resources, next: null }
}

/** One resource by its id. */
export async function readFhir(reader: Reader, type: FhirType, id: string): Promise<FhirResource | undefined> {
  const sources = fhirSources[type]
  const entryId = EntryId.safeParse(id)
  if (entryId.success) {
    const entry = await reader.entry(entryId.data)
    if (entry === undefined) return undefined
    for (const source of sources) {
      if (source.from === 'entries') return source.make(entry)
      const loads = parseSubject(typeof entry.body['load'] === 'string' ? entry.body['load'] : '')
      if (loads === undefined || subjectKind(loads) !== source.from) continue
      // oxlint-disable-next-line no-await-in-loop -- one source in fact
      return (await resourcesOf(reader, source, loads)).find((resource) => resource.id === id)
    }
    return undefined
  }
  const subject = subjectOfFhirId(id)
  if (subject === undefined) return undefined
  const kind = typeof subject === 'string' ? subjectKind(subject) : subject.hashed
  const source = sources.find((each) => each.from === kind)
  if (source === undefined || source.from === 'entries') return undefined
  if (typeof subject === 'string') return (await resourcesOf(reader, source, subject)).find((each) => each.id === id)
  for await (const { resource } of walkFhir(reader, type)) if (resource.id === id) return resource
  return undefined
}

async function resourcesOf(
  reader: Reader,
  source: Exclude<FhirSource, { from: 'entries' }>,
  subject: SubjectId,
): Promise<readonly FhirResource[]> {
  const state = (await reader.known([subject])).get(subject)
  if (state === undefined) return []
  const row = { subject, standing: '', since: '' as Instant, known: state } satisfies KnownRow
  return (await source.make(reader, [row])).flat()
}
