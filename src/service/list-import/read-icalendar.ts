import ICAL from 'ical.js'
import { type Instant, instant, millis } from '#road/instant.ts'
import type { Appointment, ReadList, Unreadable } from '#road/list-import/appointment.ts'
import { instantOfWallClock } from '#road/wall-clock.ts'

/*
 * A calendar by RFC 5545. Read by ical.js; what is here is what its events mean for a list: which moments are looked at, in
 * whose clock they stand, and that a repetition without an end has one here.
 */

interface Asked {
  readonly timeZone: string
  readonly now: Instant
}

const daysBack = 2
const daysAhead = 400
/** Those after them are left out. */
const mostEvents = 2000
/** The most operations of one event that repeats. */
const mostOccurrences = 400
/** A rule is not followed further than this, whenever it began. */
const mostSteps = 20_000

export function readICalendar(text: string, asked: Asked): ReadList {
  let parsed: unknown
  try {
    parsed = ICAL.parse(text)
  } catch (error) {
    const says = `wanted a calendar by RFC 5545: ${error instanceof Error ? error.message : String(error)}`
    return { appointments: [], unreadable: [{ line: 1, says: says.slice(0, 300) }] }
  }
  const calendars = (Array.isArray(parsed) && typeof parsed[0] === 'string' ? [parsed] : (parsed as unknown[])).map(
    (each) => new ICAL.Component(each as ConstructorParameters<typeof ICAL.Component>[0]),
  )
  const lines = text.split(/\r?\n/).flatMap((line, place) => (/^BEGIN:VEVENT\s*$/i.test(line) ? [place + 1] : []))
  const appointments: Appointment[] = []
  const unreadable: Unreadable[] = []
  let place = 0
  for (const calendar of calendars) {
    const withdrawn = textOf(calendar.getFirstPropertyValue('method')).toUpperCase() === 'CANCEL'
    const events = calendar.getAllSubcomponents('vevent')
    const byUid = Map.groupBy(events, uidOf)
    for (const event of events) {
      const line = lines[place++] ?? 1
      if (place > mostEvents) continue
      const read = readEvent(event, { sameUid: byUid.get(uidOf(event)) ?? [], line, withdrawn, ...asked })
      appointments.push(...read.appointments)
      unreadable.push(...read.unreadable)
    }
  }
  if (place > mostEvents) {
    const says = `wanted at most ${mostEvents} events, current number is ${place}: this one and those after it were left out`
    unreadable.push({ line: lines[mostEvents] ?? 1, says })
  }
  if (place === 0) unreadable.push({ line: 1, says: 'wanted at least one VEVENT, current number is 0' })
  return { appointments, unreadable }
}

interface EventPlace extends Asked {
  /** All of the file that have the number of the event: a series, and what replaces one of it. */
  readonly sameUid: readonly ICAL.Component[]
  readonly line: number
  readonly withdrawn: boolean
}

function uidOf(component: ICAL.Component): string {
  return textOf(component.getFirstPropertyValue('uid')).slice(0, 180)
}

function readEvent(component: ICAL.Component, place: EventPlace): ReadList {
  const { line, sameUid } = place
  const uid = uidOf(component)
  const none = (says: string): ReadList => ({ appointments: [], unreadable: [{ line, ref: uid || undefined, says }] })
  if (uid === '') return none('UID: wanted the number of the event (RFC 5545, 3.8.4.7), current value is missing')
  const isException = component.hasProperty('recurrence-id')
  // What replaces one of a series is read with the series, where that is in the file.
  if (isException && sameUid.some((each) => !each.hasProperty('recurrence-id')))
    return { appointments: [], unreadable: [] }
  try {
    const exceptions = isException ? [] : sameUid.filter((each) => each.hasProperty('recurrence-id'))
    const event = new ICAL.Event(component, { strictExceptions: true, exceptions })
    if (!component.hasProperty('dtstart')) return none('DTSTART: wanted when it begins, current value is missing')
    if (isException) {
      const replaced = momentOf(component, 'recurrence-id', event.recurrenceId, place)
      if (replaced === undefined) return none(unknownZone(component))
      return one(event, { ...place, ref: `${uid}^${replaced}`, start: event.startDate })
    }
    if (!event.isRecurring()) return one(event, { ...place, ref: uid, start: event.startDate })
    return series(event, uid, place)
  } catch (error) {
    return none(`the event cannot be read: ${error instanceof Error ? error.message : String(error)}`.slice(0, 300))
  }
}

/** Those of a series that lie in the time that is looked at, and those that were taken out of it (EXDATE). */
function series(event: ICAL.Event, uid: string, place: EventPlace): ReadList {
  const { line, now } = place
  const [from, to] = [instant(millis(now) - daysBack * 86_400_000), instant(millis(now) + daysAhead * 86_400_000)]
  const appointments: Appointment[] = []
  const unreadable: Unreadable[] = []
  const iterator = event.iterator()
  for (let step = 0; ; step += 1) {
    if (step >= mostSteps || appointments.length >= mostOccurrences) {
      const says = `the event repeats too often: ${appointments.length} of it were read, up to ${mostOccurrences} are`
      unreadable.push({ line, ref: uid, says })
      break
    }
    const next = iterator.next() as ICAL.Time | null | undefined
    if (next === null || next === undefined) break
    const details = event.getOccurrenceDetails(next)
    const planned = momentOf(event.component, 'dtstart', next, place)
    if (planned === undefined)
      return { appointments: [], unreadable: [{ line, ref: uid, says: unknownZone(event.component) }] }
    if (planned > to) break
    const ref = `${uid}^${planned}`
    const read = one(details.item, { ...place, ref, start: details.startDate })
    const [each] = read.appointments
    // One that was moved into the time that is looked at counts by where it was moved to.
    if ((each?.startsAt ?? planned) < from) continue
    appointments.push(...read.appointments)
    unreadable.push(...read.unreadable)
  }
  for (const property of event.component.getAllProperties('exdate'))
    for (const value of property.getValues() as readonly unknown[]) {
      const left = value instanceof ICAL.Time ? momentOfTime(value, parameterOf(property, 'tzid'), place) : undefined
      if (left === undefined || left < from || left > to) continue
      const base = {
        line,
        ref: `${uid}^${left}`,
        from: 'event left out (EXDATE)',
        saidAt: saidAt(event.component, place),
      }
      appointments.push({ ...base, is: 'cancelled', remarks: [] })
    }
  return { appointments, unreadable }
}

interface OccurrencePlace extends EventPlace {
  readonly ref: string
  readonly start: ICAL.Time
}

function one(event: ICAL.Event, place: OccurrencePlace): ReadList {
  const { component } = event
  const { line, ref, start, withdrawn } = place
  const said = saidAt(component, place)
  const from = said === null ? 'calendar event without its hour' : 'calendar event'
  const base = { line, ref, from, saidAt: said, remarks: [] }
  const status = textOf(component.getFirstPropertyValue('status')).toUpperCase()
  if (withdrawn || status === 'CANCELLED') return { appointments: [{ ...base, is: 'cancelled' }], unreadable: [] }
  if (start.isDate)
    return {
      appointments: [],
      unreadable: [{ line, ref, says: 'DTSTART: wanted a time of the day, current value is a whole day' }],
    }
  const startsAt = momentOf(component, 'dtstart', start, place)
  if (startsAt === undefined) return { appointments: [], unreadable: [{ line, ref, says: unknownZone(component) }] }
  if (status === 'TENTATIVE')
    return { appointments: [], unreadable: [{ line, ref, says: 'STATUS: TENTATIVE: no time is fixed yet' }] }
  const minutes = minutesOf(event, place)
  const appointment: Appointment = {
    ...base,
    is: 'booked',
    startsAt,
    minutes: minutes !== undefined && minutes >= 1 && minutes <= 1440 ? minutes : undefined,
    theatre: textOf(component.getFirstPropertyValue('location')) || undefined,
    procedure: textOf(component.getFirstPropertyValue('summary')) || undefined,
    surgeon: surgeonOf(component),
  }
  return { appointments: [appointment], unreadable: [] }
}

/**
 * From its beginning to its end, each by its own clock; those of a series have the length of the first (3.8.5.3: the same
 * exact duration). Without an end its DURATION.
 */
function minutesOf({ component, startDate, endDate }: ICAL.Event, place: Asked): number | undefined {
  if (!component.hasProperty('dtend')) {
    const length = component.getFirstPropertyValue('duration')
    return length instanceof ICAL.Duration ? Math.round(length.toSeconds() / 60) : undefined
  }
  const begins = momentOf(component, 'dtstart', startDate, place)
  const ends = momentOf(component, 'dtend', endDate, place)
  return begins === undefined || ends === undefined ? undefined : Math.round((millis(ends) - millis(begins)) / 60_000)
}

/** Who holds the chair, else who organised it: the name beside the address, and the address. */
function surgeonOf(component: ICAL.Component): readonly string[] | undefined {
  const chair = component
    .getAllProperties('attendee')
    .find((each) => parameterOf(each, 'role')?.toUpperCase() === 'CHAIR')
  const person = chair ?? component.getFirstProperty('organizer')
  if (person === null || person === undefined) return undefined
  const names = [parameterOf(person, 'cn'), textOf(person.getFirstValue()).replace(/^mailto:/i, '')]
  const said = names.flatMap((name) => (name === undefined || name === '' ? [] : [name]))
  return said.length === 0 ? undefined : said
}

/** When it was said: LAST-MODIFIED (3.8.7.3), else DTSTAMP (3.8.7.2). */
function saidAt(component: ICAL.Component, place: Asked): Instant | null {
  for (const name of ['last-modified', 'dtstamp']) {
    const value = component.getFirstPropertyValue(name)
    if (value instanceof ICAL.Time) return momentOf(component, name, value, place) ?? null
  }
  return null
}

function momentOf(
  component: ICAL.Component,
  property: string,
  time: ICAL.Time,
  place: Pick<Asked, 'timeZone'>,
): Instant | undefined {
  const found = component.getFirstProperty(property)
  return momentOfTime(time, found === null ? undefined : parameterOf(found, 'tzid'), place)
}

/**
 * By its form (3.3.5): in UTC, by the VTIMEZONE that the file brings, by a zone of that name, or, without any, by the clock of
 * the unit. Undefined where a zone is named that nobody knows.
 */
function momentOfTime(
  time: ICAL.Time,
  tzid: string | undefined,
  { timeZone }: Pick<Asked, 'timeZone'>,
): Instant | undefined {
  if (time.zone !== ICAL.Timezone.localTimezone) return instant(time.toUnixTime() * 1000)
  const two = (part: number): string => String(part).padStart(2, '0')
  const wall = `${String(time.year).padStart(4, '0')}-${two(time.month)}-${two(time.day)}T${two(time.hour)}:${two(time.minute)}:${two(time.second)}`
  if (tzid !== undefined && !isZone(tzid)) return undefined
  const found = instantOfWallClock(wall, tzid ?? timeZone)
  return found === undefined ? undefined : (found as Instant)
}

function isZone(name: string): boolean {
  try {
    return new Intl.DateTimeFormat('en', { timeZone: name }).resolvedOptions().timeZone !== ''
  } catch {
    return false
  }
}

function unknownZone(component: ICAL.Component): string {
  const property = component.getFirstProperty('dtstart')
  const zone = property === null ? undefined : parameterOf(property, 'tzid')
  return `TZID: wanted a time zone that the file or this program knows, current value is ${JSON.stringify(zone ?? 'missing')}`
}

function parameterOf(property: ICAL.Property, name: string): string | undefined {
  const value = property.getParameter(name) as unknown
  return typeof value === 'string' ? value : Array.isArray(value) && typeof value[0] === 'string' ? value[0] : undefined
}

function textOf(value: unknown): string {
  return typeof value === 'string' ? value.trim() : ''
}
