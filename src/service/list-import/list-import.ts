import { createHash } from 'node:crypto'
import type { EntryId, SentEntry } from '#road/entry.ts'
import { stands } from '#road/finding.ts'
import { type Instant, millis } from '#road/instant.ts'
import { type ListChange, listChanges, type ListFacts, type ListWrite } from '#road/list-import/list-changes.ts'
import type { ListFormat } from '#road/list-import/format.ts'
import { ListMapping, plainMapping } from '#road/list-import/mapping.ts'
import { headingsOf } from '#road/list-import/read-list-csv.ts'
import type { PatientIdentity } from '#road/people/identity.ts'
import { caseStanding } from '#road/operating/fold.ts'
import type { SubjectId } from '#road/subject.ts'
import { canonicalJson } from '#journal/canonical-json.ts'
import { oneAtATime } from '#journal/one-at-a-time.ts'
import type { ListImportAnswer, ListPreview, ListPreviewRow } from '../exchange-answers.ts'
import type { RecordContext } from '../context.ts'
import { problemOf, recordEntries } from '../entries/record-entries.ts'
import type { PatientIdentities } from '../identities/identities.ts'
import type { Authorise } from '../sign-in/authorise-entry.ts'
import { caseOfRef, pseudonymsOf } from './pseudonyms.ts'
import { readWithin } from './read-within.ts'

type Person = SubjectId<'person'>

export interface ListAsked {
  readonly format: ListFormat
  readonly text: string
  /** How the list is read; as the unit has kept it where nothing is said. */
  readonly mapping?: ListMapping | undefined
}

const inTurn = oneAtATime()

const mappingNote = (site: string): string => `list-mapping ${site}`

export async function readMapping({ journal, site }: Pick<RecordContext, 'journal' | 'site'>): Promise<ListMapping> {
  const text = await journal.notes.read(mappingNote(site))
  if (text === undefined) return plainMapping
  // What an earlier version wrote and this one cannot read is not half read.
  return ListMapping.safeParse(JSON.parse(text)).data ?? plainMapping
}

export async function keepMapping(
  { journal, site }: Pick<RecordContext, 'journal' | 'site'>,
  mapping: ListMapping,
): Promise<void> {
  await journal.notes.write(mappingNote(site), JSON.stringify(mapping))
}

/** What a list would change, line by line; nothing is written. `digest` names just these changes. */
export async function previewList(context: RecordContext, asked: ListAsked, now: Instant): Promise<ListPreview> {
  const { changes, mapping } = await changesOf(context, asked, now)
  return {
    format: asked.format,
    rows: changes.map(rowOf),
    toRecord: changes.filter(({ write }) => write !== null).length,
    identities: changes.filter((change) => change.write !== null && identityOf(change) !== undefined).length,
    digest: digestOf(changes),
    headings: asked.format === 'csv' ? [...headingsOf(asked.text)] : [],
    mapping,
  }
}

export interface ListConfirmed extends ListAsked {
  readonly digest: string
  readonly by: Person
}

/** Where who patients are may be written down by whoever confirms; null where it may not. */
export type ListIdentities = Pick<PatientIdentities, 'keepSame'> | null

export type ListRecorded =
  | { readonly kind: 'recorded'; readonly answer: ListImportAnswer }
  /** The record or the list is another than the one that was shown. */
  | { readonly kind: 'changed'; readonly digest: string }
  | { readonly kind: 'busy' }

/** Records the changes that a person has seen and confirmed, and no others. */
export async function recordList(
  context: RecordContext,
  asked: ListConfirmed,
  {
    now,
    authorise,
    identities,
  }: { readonly now: Instant; readonly authorise: Authorise; readonly identities: ListIdentities },
): Promise<ListRecorded> {
  const work = async (): Promise<ListRecorded> => {
    const { changes } = await changesOf(context, asked, now)
    const digest = digestOf(changes)
    if (digest !== asked.digest) return { kind: 'changed', digest }
    const written = changes.flatMap((change) => (change.write === null ? [] : [{ change, write: change.write }]))
    const entries = written.map(({ write }) => entryOf(write, context.site, asked.by))
    const outcomes = await recordEntries(context, entries, authorise)
    const keepIdentity = async (id: SubjectId<'case'>, identity: PatientIdentity): Promise<boolean> =>
      (await identities?.keepSame(id, identity, { by: asked.by, why: 'care', ifNone: false })) === 'kept'
    let identitiesKept = 0
    let identitiesLeftOut = 0
    const rows: ListImportAnswer['rows'][number][] = []
    for (const [place, { change }] of written.entries()) {
      const outcome = outcomes[place]
      const kept = outcome?.kind === 'kept' || outcome?.kind === 'alreadyKept'
      const findings = kept ? outcome.entry.judgement.findings.filter(stands).map(({ says }) => says) : []
      const says = outcome === undefined || kept ? findings : [problemOf(outcome).detail]
      const identity = kept ? identityOf(change) : undefined
      if (identity !== undefined && identities === null) identitiesLeftOut += 1
      else if (identity !== undefined && change.case !== null) {
        if (await keepIdentity(change.case, identity)) identitiesKept += 1
        else {
          identitiesLeftOut += 1
          says.push('who the patient is was left out: beside this case somebody else is kept')
        }
      }
      rows.push({
        line: change.line,
        ref: change.ref,
        act: change.act,
        case: change.case,
        outcome: outcome?.kind ?? 'unusable',
        says,
      })
    }
    // An earlier recording may have ended between its entries and these: the same list again brings what is missing.
    for (const change of changes) {
      const identity = change.act === 'same' ? identityOf(change) : undefined
      if (identities === null || identity === undefined || change.case === null) continue
      const { by } = asked
      const kept = await identities.keepSame(change.case, identity, { by, why: 'care', ifNone: true })
      if (kept === 'kept') identitiesKept += 1
    }
    return { kind: 'recorded', answer: { rows, identitiesKept, identitiesLeftOut } }
  }
  // One list after another, also of several processes: each is held against what the one before has recorded.
  const done = await inTurn(() => context.journal.alone(`list import ${context.site}`, work))
  return done.done === 'here' ? done.value : { kind: 'busy' }
}

interface Changes {
  readonly changes: readonly ListChange[]
  readonly mapping: ListMapping
}

async function changesOf(context: RecordContext, asked: ListAsked, now: Instant): Promise<Changes> {
  const { journal, reader, site } = context
  const mapping = asked.mapping ?? (await readMapping(context))
  const [unit] = await reader.knownOfKind('unit', { limit: 1 })
  const { format, text } = asked
  const timeZone = unit?.known.timeZone ?? 'UTC'
  const read = await readWithin(context.compute, { format, text, mapping, timeZone, now })
  const cases = [...new Set(read.appointments.map(({ ref }) => caseOfRef(site, ref)))]
  const [known, people, pseudonymOf] = await Promise.all([
    reader.known(cases),
    reader.standing('person', ['active']),
    pseudonymsOf(journal, site),
  ])
  const histories = await Promise.all(cases.map((id) => reader.entriesAbout(id)))
  const facts: ListFacts = {
    caseOf: (ref) => caseOfRef(site, ref),
    pseudonymOf,
    known: new Map([...known].map(([id, state]) => [id, { state, standing: caseStanding(state) }])),
    history: new Map(
      cases.map((id, place) => [id, (histories[place] ?? []).filter(isOfBooking).toSorted((a, b) => a.seq - b.seq)]),
    ),
    people,
    mapping,
    now,
  }
  return { changes: listChanges(read, facts), mapping }
}

function isOfBooking({ kind }: { readonly kind: string }): boolean {
  return kind === 'case-booked' || kind === 'entry-withdrawn'
}

/** Who the patient of a booking is. What a list cancels or cannot say brings nobody. */
function identityOf({ after, appointment }: ListChange): PatientIdentity | undefined {
  return after === null ? undefined : appointment?.identity
}

/** Nothing of who a patient is: the one who looks at it may not be one who may see that. */
function rowOf({ appointment, line, ref, act, case: id, says, before, after, asks }: ListChange): ListPreviewRow {
  const namesPatient = appointment?.identity !== undefined && after !== null
  return { line, ref, act, case: id, says: [...says], before, after, asks, namesPatient }
}

/** Of what is to be recorded alone: the clock goes on between the two looks. */
function digestOf(changes: readonly ListChange[]): string {
  const written = changes.flatMap(({ write, before, case: id, line }) =>
    write === null ? [] : [{ line, id, kind: write.kind, body: write.body, before, corrects: write.corrects ?? null }],
  )
  return createHash('sha256').update(canonicalJson(written)).digest('hex').slice(0, 16)
}

/**
 * The entry of a change. Its id is made of what it says, so that the same message recorded twice is one entry: a UUID of
 * version 7 (RFC 9562) with the time of the message, and a hash in the place of chance.
 */
function entryOf(write: ListWrite, site: SentEntry['site'], by: Person): SentEntry {
  const { kind, happenedAt, workstation, body, corrects } = write
  const hash = createHash('sha256').update(canonicalJson({ site, kind, happenedAt, body, corrects })).digest('hex')
  const time = millis(happenedAt).toString(16).padStart(12, '0')
  const variant = (8 + (Number.parseInt(hash.charAt(3), 16) % 4)).toString(16)
  const id = `${time.slice(0, 8)}-${time.slice(8)}-7${hash.slice(0, 3)}-${variant}${hash.slice(4, 7)}-${hash.slice(7, 19)}`
  return {
    id: id as EntryId,
    site,
    kind,
    happenedAt,
    by,
    workstation,
    // A body is plain JSON by its schema.
    body: JSON.parse(JSON.stringify(body)) as SentEntry['body'],
    ...(corrects === undefined ? {} : { corrects }),
  }
}
