import type { EntryId, KeptEntry } from '../entry.ts'
import type { Instant } from '../instant.ts'
import type { Bodies } from '../kinds.ts'
import { caseBooked } from '../operating/entries.ts'
import type { CaseKnown, CaseStanding } from '../operating/fold.ts'
import type { SubjectId } from '../subject.ts'
import { type Appointment, type ReadList, saysWhen } from './appointment.ts'
import type { ListMapping } from './mapping.ts'

/** What is known of the operations that a list names. */
export interface ListFacts {
  /** The case that an operation of the other system is here. */
  readonly caseOf: (ref: string) => SubjectId<'case'>
  /** A number that stands for a patient, from theirs in the hospital: always the same, and it does not say whose it is. */
  readonly pseudonymOf: (number: string) => string
  readonly known: ReadonlyMap<SubjectId<'case'>, { readonly state: CaseKnown; readonly standing: CaseStanding }>
  /** The bookings of a case and what withdrew them, in the order in which they were kept. */
  readonly history: ReadonlyMap<SubjectId<'case'>, readonly KeptEntry[]>
  readonly people: readonly { readonly id: SubjectId<'person'>; readonly name: string }[]
  readonly mapping: ListMapping
  readonly now: Instant
}

export const changeActs = ['book', 'move', 'change', 'cancel', 'same', 'older', 'replaced', 'cannot'] as const
export type ChangeAct = (typeof changeActs)[number]

type Booking = Bodies['case-booked']

/** What one line of a list comes to. */
export interface ListChange {
  readonly line: number
  readonly ref: string | null
  readonly act: ChangeAct
  readonly case: SubjectId<'case'> | null
  /** Why it cannot be done, or what was taken otherwise than it stands in the list. */
  readonly says: readonly string[]
  readonly before: Booking | null
  readonly after: Booking | null
  /** The entry to be recorded; null where nothing is. */
  readonly write: ListWrite | null
  /** What the unit has to say before it can be read: a name there that nobody here has. */
  readonly asks: { readonly what: 'surgeon'; readonly name: string } | null
  readonly appointment: Appointment | null
}

export interface ListWrite {
  readonly kind: 'case-booked' | 'entry-withdrawn'
  readonly happenedAt: Instant
  readonly workstation: string
  readonly body: Booking | { readonly why: string }
  readonly corrects?: EntryId
}

/** What a list would change on the record, line by line. Of several that speak of one operation the last word counts. */
export function listChanges({ appointments, unreadable }: ReadList, facts: ListFacts): readonly ListChange[] {
  const last = lastWords(appointments)
  const changes = [
    ...unreadable.map(({ line, ref, says }) => ({ ...nothing(line, ref ?? null, 'cannot'), says: [says] })),
    ...appointments.map((each) =>
      last.get(each.ref) === each
        ? changeOf(each, facts)
        : { ...nothing(each.line, each.ref, 'replaced'), case: facts.caseOf(each.ref), appointment: each },
    ),
  ]
  return changes.toSorted((a, b) => a.line - b.line)
}

/** For each operation the message that was made last; where the form does not tell, the one further down. */
function lastWords(appointments: readonly Appointment[]): ReadonlyMap<string, Appointment> {
  const last = new Map<string, Appointment>()
  for (const each of appointments) {
    const before = last.get(each.ref)
    if (before === undefined || (each.saidAt ?? '') >= (before.saidAt ?? '')) last.set(each.ref, each)
  }
  return last
}

function nothing(line: number, ref: string | null, act: ChangeAct): ListChange {
  return { line, ref, act, case: null, says: [], before: null, after: null, write: null, asks: null, appointment: null }
}

function changeOf(asked: Appointment, facts: ListFacts): ListChange {
  const id = facts.caseOf(asked.ref)
  const here = facts.known.get(id)
  const booked = here?.state.booked ?? null
  const history = facts.history.get(id) ?? []
  const before = booked === null ? null : bookingOf(id, booked)
  const row = { ...nothing(asked.line, asked.ref, 'cannot'), case: id, before, appointment: asked }
  const later = laterWord(asked, history)
  if (later !== undefined) {
    // What was written here, or came without its hour, may not have known of the cancellation: a person says which stands.
    if (asked.is === 'cancelled' && booked !== null && !saysWhen(later.workstation))
      return {
        ...row,
        says: [
          `it was cancelled there at ${asked.saidAt}, and written here at ${later.happenedAt} from what does not say when it was said (${later.workstation}): wanted a person who says which stands, and withdraws the booking if it is cancelled`,
        ],
      }
    return { ...row, act: 'older', says: [`on record is what was said at ${later.happenedAt}, which is later`] }
  }
  if (here !== undefined && here.standing !== 'booked')
    return { ...row, says: ['the operation has begun or is over here: nothing of it is changed by a list'] }
  const other = otherPatient(asked, before?.patient ?? lastBooked(history)?.patient, facts)
  if (other !== undefined) return { ...row, says: [other] }
  const happenedAt = asked.saidAt === null || asked.saidAt > facts.now ? facts.now : asked.saidAt
  const write = { happenedAt, workstation: asked.from }
  if (asked.is === 'cancelled') {
    if (booked === null) return { ...row, act: 'same', says: ['it is not booked here'] }
    const body = { why: `Cancelled in the other system: ${asked.from}` }
    return { ...row, act: 'cancel', write: { ...write, kind: 'entry-withdrawn', body, corrects: booked.entry } }
  }
  const made = bookingFrom(asked, { id, before, facts })
  if ('missing' in made) return { ...row, says: made.missing, asks: made.asks }
  const says = [...asked.remarks, ...made.says]
  if (before !== null && sameBooking(before, made.body)) return { ...row, act: 'same', after: made.body, says }
  // After a cancelled booking the case exists still: it is booked again by a correction of that booking.
  const corrects = booked?.entry ?? history.findLast((entry) => entry.kind === 'case-booked')?.id
  return {
    ...row,
    act: before === null ? 'book' : isMoved(before, made.body) ? 'move' : 'change',
    after: made.body,
    says,
    write: { ...write, kind: 'case-booked', body: made.body, ...(corrects === undefined ? {} : { corrects }) },
  }
}

/** What is on record and was said later: of what came with its own hour the last, else whatever was written last. */
function laterWord({ saidAt }: Appointment, history: readonly KeptEntry[]): KeptEntry | undefined {
  if (saidAt === null) return undefined
  const told = [history.findLast(({ workstation }) => saysWhen(workstation)), history.at(-1)]
  return told.find((entry) => entry !== undefined && saidAt < entry.happenedAt)
}

function lastBooked(history: readonly KeptEntry[]): Booking | undefined {
  return caseBooked.body.safeParse(history.findLast(({ kind }) => kind === 'case-booked')?.body).data
}

/** Why a line is not taken for the operation that is on record under its number: it is of somebody else. */
function otherPatient(asked: Appointment, onRecord: string | undefined, facts: ListFacts): string | undefined {
  if (onRecord === undefined || namesOf(asked, facts).length === 0 || namesOf(asked, facts).includes(onRecord))
    return undefined
  const given = patientOf(asked, facts)
  return onRecord === facts.pseudonymOf(`operation ${asked.ref}`)
    ? `the list names a patient, ${given}, under a number that was booked without one: put it in the booking by hand if it is theirs`
    : `the list names another patient under this number: wanted ${onRecord}, which is on record, current value is ${given}`
}

function bookingOf(id: SubjectId<'case'>, booked: NonNullable<CaseKnown['booked']>): Booking {
  const { at: _, entry: __, by: ___, ...body } = booked
  return { case: id, ...body }
}

type Made =
  | { readonly body: Booking; readonly says: readonly string[] }
  | { readonly missing: readonly string[]; readonly asks: ListChange['asks'] }

/** The booking that an appointment asks for. What it does not say stays as it was booked. */
function bookingFrom(
  asked: Appointment,
  { id, before, facts }: { readonly id: SubjectId<'case'>; readonly before: Booking | null; readonly facts: ListFacts },
): Made {
  const { mapping } = facts
  const surgeon = asked.surgeon === undefined ? before?.surgeon : surgeonOf(asked.surgeon, facts)
  const unknown = asked.surgeon !== undefined && surgeon === undefined
  const theatre = asked.theatre === undefined ? before?.theatre : (mapping.theatres[asked.theatre] ?? asked.theatre)
  const notSaid = asked.implantPlanned === undefined && before === null
  const minutes = asked.minutes ?? before?.forPlan?.minutes
  const draft = {
    ...before,
    case: id,
    patient: before?.patient ?? patientOf(asked, facts),
    procedure: asked.procedure ?? before?.procedure,
    theatre,
    plannedAt: asked.startsAt ?? before?.plannedAt,
    surgeon,
    implantPlanned: asked.implantPlanned ?? before?.implantPlanned ?? mapping.implantWhenNotSaid,
    ...(minutes === undefined ? {} : { forPlan: { ...before?.forPlan, minutes } }),
  }
  const parsed = caseBooked.body.safeParse(draft)
  if (!parsed.success || unknown) {
    const fields = parsed.success ? [] : parsed.error.issues.map((issue) => String(issue.path[0]))
    const others = [...new Set(fields)].filter((field) => !(unknown && field === 'surgeon'))
    const name = asked.surgeon?.find((each) => /\D/.test(each)) ?? asked.surgeon?.[0] ?? ''
    return {
      missing: [
        ...(unknown ? [`surgeon: wanted a person on record, current value is ${JSON.stringify(name)}`] : []),
        ...others.map((field) => `${field}: wanted it in the list, current value is missing or too long`),
      ],
      asks: unknown ? { what: 'surgeon', name } : null,
    }
  }
  const implant = mapping.implantWhenNotSaid ? 'yes, the strict reading' : 'no'
  const says = notSaid ? [`whether an implant is planned is not said: taken as ${implant}`] : []
  return { body: parsed.data, says }
}

/** By what the unit has written down of the names there, else by the name on record. */
function surgeonOf(names: readonly string[], { people, mapping }: ListFacts): SubjectId<'person'> | undefined {
  const mapped = names.map((name) => mapping.surgeons[name]).find((id) => id !== undefined)
  if (mapped !== undefined) return people.find(({ id }) => id === mapped)?.id
  const plain = (text: string): string => text.toLowerCase().replaceAll(/\s+/g, ' ').trim()
  const wanted = new Set(names.map(plain))
  const found = people.filter(({ id, name }) => wanted.has(plain(name)) || wanted.has(plain(id)))
  // Two of one name are not told apart by it.
  return found.length === 1 ? found[0]?.id : undefined
}

function patientOf(asked: Appointment, facts: ListFacts): string {
  if (asked.pseudonym !== undefined) return asked.pseudonym
  return namesOf(asked, facts)[0] ?? facts.pseudonymOf(`operation ${asked.ref}`)
}

/** What may stand for the patient on record, the one that is written first; none where the list names nobody. */
function namesOf({ pseudonym, identity, numberedBy }: Appointment, facts: ListFacts): readonly string[] {
  if (pseudonym !== undefined) return [pseudonym]
  const number = identity?.hospitalNumber
  if (number === undefined) return []
  const plain = facts.pseudonymOf(`patient ${number}`)
  // Under the number of one operation a list without the hospital's name means the same patient as one with it.
  return numberedBy === undefined ? [plain] : [facts.pseudonymOf(`patient ${number} of ${numberedBy}`), plain]
}

function sameBooking(a: Booking, b: Booking): boolean {
  return JSON.stringify(sorted(a)) === JSON.stringify(sorted(b))
}

function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted)
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(
    Object.entries(value)
      .filter(([, member]) => member !== undefined)
      .toSorted(([a], [b]) => (a < b ? -1 : 1))
      .map(([name, member]) => [name, sorted(member)]),
  )
}

function isMoved(before: Booking, after: Booking): boolean {
  return before.plannedAt !== after.plannedAt || before.theatre !== after.theatre
}
