import type { Instant } from '../instant.ts'
import { type Appointment, identityFrom, type ReadList, type Unreadable } from './appointment.ts'
import { type Hl7Message, hl7Messages, type Hl7Segment } from './hl7-message.ts'
import { hl7Instant, hl7Offset } from './hl7-time.ts'

/*
 * Scheduling messages of HL7 v2.5.1, chapter 10: SIU with the events S12 new, S13 rescheduled, S14 modified, S15 cancelled,
 * S17 deleted (10.4.1 to 10.4.6). The order of the segments is that of the published structure SIU_S12; the numbers of
 * fields and clauses are from memory.
 */

const events = { S12: 'booked', S13: 'booked', S14: 'booked', S15: 'cancelled', S17: 'cancelled' } as const
type Event = keyof typeof events

/** Filler status (SCH-25, table 0278): those by which an operation does not stand as booked. */
const cancelledStatus = new Set(['cancelled', 'canceled', 'dc', 'deleted'])
const unfixedStatus = new Set(['pending', 'waitlist', 'blocked'])
const begunStatus = new Set(['started', 'complete', 'noshow'])

export function readSiu(text: string, timeZone: string): ReadList {
  const appointments: Appointment[] = []
  const unreadable: Unreadable[] = []
  for (const message of hl7Messages(text)) {
    if (message.kind === 'broken') {
      unreadable.push({ line: message.line, says: message.says })
      continue
    }
    const read = appointmentOf(message, timeZone)
    if ('says' in read) unreadable.push(read)
    else appointments.push(read)
  }
  return { appointments, unreadable }
}

function appointmentOf(message: Hl7Message, timeZone: string): Appointment | Unreadable {
  const of = (name: string): Hl7Segment | undefined => message.segments.find((segment) => segment.name === name)
  const { line } = message
  const head = of('MSH')
  const [type, event] = [head?.at(9) ?? '', head?.at(9, 2) ?? '']
  const no = (says: string, ref?: string): Unreadable => ({ line, says, ...(ref === undefined ? {} : { ref }) })
  if (type !== 'SIU') return no(`MSH-9: wanted SIU, current value is ${JSON.stringify(type)}`)
  if (!isEvent(event)) return no(`MSH-9: wanted S12, S13, S14, S15 or S17, current value is ${JSON.stringify(event)}`)
  const schedule = of('SCH')
  const ref = schedule === undefined ? undefined : refOf(schedule)
  if (schedule === undefined || ref === undefined) return no('SCH-2 or SCH-1: wanted the number of the appointment')
  const sentAt = head?.at(7) ?? ''
  const offset = hl7Offset(sentAt)
  const moment = (written: string): Instant | undefined => hl7Instant(written, timeZone, offset)
  const saidAt = moment(sentAt)
  if (saidAt === undefined) return no(`MSH-7: wanted when the message was made, current value is ${shown(sentAt)}`, ref)
  const status = (schedule.at(25) || schedule.at(25, 2)).toLowerCase()
  if (unfixedStatus.has(status)) return no(`SCH-25: ${JSON.stringify(status)}: no time is fixed yet`, ref)
  if (begunStatus.has(status))
    return no(`SCH-25: ${JSON.stringify(status)}: what happened in theatre is recorded there`, ref)
  const patient = of('PID')
  const base = {
    line,
    ref,
    saidAt,
    from: `SIU ${event} ${head?.at(10) ?? ''}`.trim().slice(0, 80),
    ...(patient && identityOf(patient)),
    remarks: [],
  }
  if (events[event] === 'cancelled' || cancelledStatus.has(status)) return { ...base, is: 'cancelled' }
  const when = startOf(message, { moment, byClock: (written) => hl7Instant(written, timeZone) })
  if ('says' in when) return no(when.says, ref)
  const surgeon = surgeonOf(message)
  return {
    ...base,
    is: 'booked',
    startsAt: when.startsAt,
    minutes: minutesOf(message, moment),
    theatre: theatreOf(of('AIL')),
    surgeon: surgeon.names,
    procedure: firstOf(of('AIS')?.at(3, 2), of('AIS')?.at(3), schedule.at(7, 2), schedule.at(7), schedule.at(8, 2)),
    remarks: [...when.remarks, ...surgeon.remarks, ...otherServices(message)],
  }
}

function isEvent(text: string): text is Event {
  return Object.hasOwn(events, text)
}

/**
 * The number that the system which keeps the appointments gives (SCH-2), else that of the one which asked (SCH-1); with its
 * name space. Each system counts for itself: the one which asked is named, so that its 55 is not the 55 of the other.
 */
function refOf(schedule: Hl7Segment): string | undefined {
  for (const field of [2, 1]) {
    const number = schedule.at(field)
    if (number === '') continue
    const whole = [number, schedule.at(field, 2), schedule.at(3)].filter((part) => part !== '').join('^')
    return field === 1 ? `SCH-1: ${whole}` : whole
  }
  return undefined
}

/** One operation is read from one message: what else is done in it is said. */
function otherServices({ segments }: Hl7Message): readonly string[] {
  const [, ...others] = segments.filter(({ name }) => name === 'AIS')
  return others.map(
    (each) => `a further AIS is left out: ${shown(firstOf(each.at(3, 2), each.at(3)) ?? 'without a name')}`,
  )
}

interface Start {
  readonly startsAt: Instant
  readonly remarks: readonly string[]
}

type Moment = (written: string) => Instant | undefined

/**
 * When it begins: TQ1-7, SCH-11.4 of earlier versions, or AIS-4. Two that differ are said, and so is a beginning that would be
 * another by the clock of the unit: the offset of the day on which the message was made may not be that of the operation's.
 */
function startOf(
  message: Hl7Message,
  { moment, byClock }: { readonly moment: Moment; readonly byClock: Moment },
): Start | { readonly says: string } {
  const places = [
    ['TQ1', 7, 1],
    ['SCH', 11, 4],
    ['AIS', 4, 1],
  ] as const
  const written = places.flatMap(([name, field, component]) => {
    const text = message.segments.find((segment) => segment.name === name)?.at(field, component) ?? ''
    return text === '' ? [] : [{ where: component === 1 ? `${name}-${field}` : `${name}-${field}.${component}`, text }]
  })
  const [first] = written
  if (first === undefined) return { says: 'TQ1-7, SCH-11.4 or AIS-4: wanted when it begins, current value is missing' }
  const startsAt = moment(first.text)
  if (startsAt === undefined)
    return {
      says: `${first.where}: wanted a day and a time such as 202611300730, current value is ${shown(first.text)}`,
    }
  const remarks = written
    .filter((other) => moment(other.text) !== startsAt)
    .map((other) => `${first.where} is taken for the beginning; ${other.where} says ${shown(other.text)}`)
  const plain = byClock(first.text)
  const shifted =
    plain === startsAt || hl7Offset(first.text) !== undefined
      ? []
      : [
          `${first.where} has no offset of its own: by that of MSH-7 it is ${startsAt}, by the clock of the unit it would be ${plain ?? 'no moment'}`,
        ]
  return { startsAt, remarks: [...shifted, ...remarks] }
}

const unitMinutes: readonly (readonly [RegExp, number])[] = [
  [/^(?:m|min|mins|minutes?)$/i, 1],
  [/^(?:h|hr|hrs|hours?)$/i, 60],
  [/^(?:s|sec|secs|seconds?)$/i, 1 / 60],
]

/** How long: SCH-9 and -10, TQ1-6, the end less the beginning, AIS-7 and -8. A number without a unit says nothing. */
function minutesOf(message: Hl7Message, moment: (written: string) => Instant | undefined): number | undefined {
  const at = (name: string, field: number, component?: number): string =>
    message.segments.find((segment) => segment.name === name)?.at(field, component) ?? ''
  const span = (from: string, to: string): number | undefined => {
    const [begins, ends] = [moment(from), moment(to)]
    return begins === undefined || ends === undefined ? undefined : (Date.parse(ends) - Date.parse(begins)) / 60_000
  }
  const found = [
    quantity(at('SCH', 9), at('SCH', 10)),
    quantity(at('TQ1', 6), at('TQ1', 6, 2)),
    span(at('TQ1', 7), at('TQ1', 8)),
    span(at('SCH', 11, 4), at('SCH', 11, 5)),
    quantity(at('AIS', 7), at('AIS', 8)),
  ]
  return found.find((each) => each !== undefined && each >= 1 && each <= 1440)
}

function quantity(number: string, unit: string): number | undefined {
  const factor = unitMinutes.find(([form]) => form.test(unit))?.[1]
  if (factor === undefined || !/^\d+(?:\.\d+)?$/.test(number)) return undefined
  return Math.round(Number(number) * factor)
}

/** A location (PL): its description, else ward and room. */
function theatreOf(location: Hl7Segment | undefined): string | undefined {
  if (location === undefined) return undefined
  return firstOf(location.at(3, 9), [location.at(3), location.at(3, 2)].filter((part) => part !== '').join(' '))
}

/** The person whose part says surgeon; the only one where there is one alone. */
function surgeonOf({ segments }: Hl7Message): {
  readonly names: readonly string[] | undefined
  readonly remarks: readonly string[]
} {
  const people = segments.filter((segment) => segment.name === 'AIP' && segment.repetitions(3) > 0)
  const operates = people.filter((person) => /surg|operat/i.test(`${person.at(4)} ${person.at(4, 2)}`))
  const [chosen] = operates.length > 0 ? operates : people
  if (chosen === undefined) return { names: undefined, remarks: [] }
  const [number, family, given] = [chosen.at(3), chosen.at(3, 2), chosen.at(3, 3)]
  const names = [
    number,
    ...(family === '' ? [] : [`${given} ${family}`.trim(), `${family} ${given}`.trim(), `${family}, ${given}`, family]),
  ].filter((name) => name !== '')
  const unclear = operates.length === 0 && people.length > 1
  return { names, remarks: unclear ? ['AIP-4 names nobody as surgeon: the first person is taken'] : [] }
}

function identityOf(patient: Hl7Segment) {
  const count = patient.repetitions(3)
  const numbers = Array.from({ length: count }, (_, place) => place + 1)
  const record = numbers.find((repetition) => /^(?:MR|PI)$/.test(patient.at(3, 5, repetition))) ?? 1
  const born = /^(\d{4})(\d{2})(\d{2})/.exec(patient.at(7))
  const identity = identityFrom({
    name: [patient.at(5, 2), patient.at(5)]
      .filter((part) => part !== '')
      .join(' ')
      .slice(0, 120),
    hospitalNumber: patient.at(3, 1, record).slice(0, 60),
    bornOn: born === null ? undefined : born.slice(1).join('-'),
    phone: patient.at(13).slice(0, 40),
  })
  const numberedBy = patient.at(3, 4, record) || undefined
  return { identity, numberedBy }
}

function firstOf(...texts: readonly (string | undefined)[]): string | undefined {
  return texts.find((text) => text !== undefined && text !== '')
}

function shown(text: string): string {
  return JSON.stringify(text.slice(0, 40))
}
