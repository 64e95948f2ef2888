import assert from 'node:assert/strict'
import { describe, test } from 'node:test'
import type { Instant } from '#road/instant.ts'
import { readICalendar } from './read-icalendar.ts'

/*
 * RFC 5545: the zone is that of the example in 3.6.5, the repetitions are those of the examples in 3.8.5.3, a moment that is
 * left out after 3.8.5.1, one that is moved after 3.8.4.4. The examples are from memory; what they say of the moments is
 * reckoned by hand.
 */

const newYork = `BEGIN:VTIMEZONE
TZID:America/New_York
BEGIN:STANDARD
DTSTART:19671029T020000
RRULE:FREQ=YEARLY;BYDAY=-1SU;BYMONTH=10
TZOFFSETFROM:-0400
TZOFFSETTO:-0500
TZNAME:EST
END:STANDARD
BEGIN:DAYLIGHT
DTSTART:19870405T020000
RRULE:FREQ=YEARLY;BYDAY=1SU;BYMONTH=4
TZOFFSETFROM:-0500
TZOFFSETTO:-0400
TZNAME:EDT
END:DAYLIGHT
END:VTIMEZONE`

const event = (lines: string): string =>
  `BEGIN:VEVENT\nUID:op-1@example.org\nDTSTAMP:19970901T130000Z\nSUMMARY:Hernia repair\nLOCATION:Theatre 1\nORGANIZER;CN=Sana:mailto:sana@example.org\n${lines}\nEND:VEVENT`
const calendar = (...parts: readonly string[]): string =>
  `BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:-//Example//EN\n${parts.join('\n')}\nEND:VCALENDAR`.replaceAll('\n', '\r\n')

const asked = { timeZone: 'Europe/Berlin', now: '1997-09-01T12:00:00.000Z' as Instant }
const read = (...parts: readonly string[]) => readICalendar(calendar(...parts), asked)
const startsOf = (...parts: readonly string[]): readonly string[] =>
  read(...parts).appointments.map(({ startsAt, ref, is }) => startsAt ?? `${is} ${ref}`)

const at = 'DTSTART;TZID=America/New_York:19970902T090000\nDTEND;TZID=America/New_York:19970902T103000'

describe('iCalendar: moments', () => {
  test('given a zone of the file, then by that zone, with length, place, chair and when it was said', () => {
    const { appointments, unreadable } = read(newYork, event(at))
    assert.deepEqual(unreadable, [])
    assert.deepEqual(appointments, [
      {
        line: 21,
        ref: 'op-1@example.org',
        from: 'calendar event',
        saidAt: '1997-09-01T13:00:00.000Z',
        remarks: [],
        is: 'booked',
        startsAt: '1997-09-02T13:00:00.000Z',
        minutes: 90,
        theatre: 'Theatre 1',
        procedure: 'Hernia repair',
        surgeon: ['Sana', 'sana@example.org'],
      },
    ])
  })
  test('given a known zone that the file does not bring, then by that zone', () =>
    assert.deepEqual(startsOf(event(at)), ['1997-09-02T13:00:00.000Z']))
  test('given a beginning and an end by two clocks, then the length is from the one moment to the other', () => {
    const [read1] = read(event('DTSTART;TZID=Europe/Berlin:19971202T080000\nDTEND:19971202T080000Z')).appointments
    assert.equal(read1?.minutes, 60)
  })
  test('given a length, then that', () =>
    assert.equal(read(event('DTSTART:19970902T090000Z\nDURATION:PT1H15M')).appointments[0]?.minutes, 75))
  test('given UTC, then as it stands', () =>
    assert.deepEqual(startsOf(event('DTSTART:19970902T090000Z')), ['1997-09-02T09:00:00.000Z']))
  test('given no zone, then by the clock of the unit', () =>
    assert.deepEqual(startsOf(event('DTSTART:19970902T090000')), ['1997-09-02T07:00:00.000Z']))
  test('given a zone that nobody knows, then it is not read', () =>
    assert.match(read(event(at.replaceAll('New_York', 'Nowhere'))).unreadable[0]?.says ?? '', /wanted a time zone/))
  test('given a whole day, then it is not read', () =>
    assert.match(read(event('DTSTART;VALUE=DATE:19970902')).unreadable[0]?.says ?? '', /a whole day/))
})

describe('iCalendar: repetitions', () => {
  test('given ten days, then ten operations, each with a number of its own', () => {
    const { appointments } = read(newYork, event(`${at}\nRRULE:FREQ=DAILY;COUNT=10`))
    assert.equal(appointments.length, 10)
    assert.equal(appointments[9]?.startsAt, '1997-09-11T13:00:00.000Z')
    assert.equal(new Set(appointments.map(({ ref }) => ref)).size, 10)
  })
  test('given every day until 24 December, then 113, and by the clock of the zone after summer time', () => {
    const starts = startsOf(newYork, event(`${at}\nRRULE:FREQ=DAILY;UNTIL=19971224T000000Z`))
    assert.equal(starts.length, 113)
    assert.ok(starts.includes('1997-10-25T13:00:00.000Z'))
    assert.ok(starts.includes('1997-10-26T14:00:00.000Z'))
  })
  test('given one without an end, then it ends at the days that are looked at', () => {
    const { appointments, unreadable } = read(newYork, event(`${at}\nRRULE:FREQ=WEEKLY`))
    assert.equal(appointments.length, 57)
    assert.deepEqual(unreadable, [])
  })
  test('given one each minute, then it is cut off, and that is said', () => {
    const { appointments, unreadable } = read(newYork, event(`${at}\nRRULE:FREQ=MINUTELY`))
    assert.equal(appointments.length, 400)
    assert.match(unreadable[0]?.says ?? '', /repeats too often/)
  })
  test('given one left out, one moved and one cancelled, then so', () => {
    const series = event(`${at}\nRRULE:FREQ=DAILY;COUNT=4\nEXDATE;TZID=America/New_York:19970903T090000`)
    const moved = event('RECURRENCE-ID;TZID=America/New_York:19970904T090000\nDTSTART:19970904T180000Z')
    const cancelled = event(
      'RECURRENCE-ID;TZID=America/New_York:19970905T090000\nDTSTART:19970905T130000Z\nSTATUS:CANCELLED',
    )
    assert.deepEqual(startsOf(newYork, series, moved, cancelled), [
      '1997-09-02T13:00:00.000Z',
      '1997-09-04T18:00:00.000Z',
      'cancelled op-1@example.org^1997-09-05T13:00:00.000Z',
      'cancelled op-1@example.org^1997-09-03T13:00:00.000Z',
    ])
  })
})

test('iCalendar: given more events than are read, then those after them are left out, and that is said', () => {
  const many = Array.from(
    { length: 12_000 },
    (_, place) => `BEGIN:VEVENT\nUID:u${place}\nDTSTART:19970902T090000Z\nEND:VEVENT`,
  )
  const { appointments, unreadable } = read(...many)
  assert.equal(appointments.length, 2000)
  assert.match(unreadable[0]?.says ?? '', /at most 2000 events, current number is 12000/)
})

test('iCalendar: given METHOD:CANCEL, then cancelled', () =>
  assert.equal(read('METHOD:CANCEL', event(at)).appointments[0]?.is, 'cancelled'))
for (const text of [
  '',
  'hello',
  'BEGIN:VCALENDAR\r\nEND:VCALENDAR',
  'BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nEND:VCALENDAR',
])
  test(`iCalendar: ${JSON.stringify(text)} is not read, and it is said why`, () => {
    const { appointments, unreadable } = readICalendar(text, asked)
    assert.deepEqual(appointments, [])
    assert.equal(unreadable.length >= 1, true)
  })
