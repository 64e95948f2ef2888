import type { Instant } from '#road/instant.ts'
import type { ReadList } from '#road/list-import/appointment.ts'
import type { ListFormat } from '#road/list-import/format.ts'
import type { ListMapping } from '#road/list-import/mapping.ts'
import { readListCsv } from '#road/list-import/read-list-csv.ts'
import { readSiu } from '#road/list-import/read-siu.ts'
import { readICalendar } from './read-icalendar.ts'

export const mostAppointments = 2000

export interface ListTask {
  readonly format: ListFormat
  readonly text: string
  readonly mapping: ListMapping
  readonly timeZone: string
  readonly now: Instant
}

/** Reads a list of any form. A few lines of a calendar can keep it busy for ever: it is run where it can be stopped. */
export function readList(task: ListTask): ReadList {
  return bounded(readText(task))
}

function readText({ format, text, mapping, timeZone, now }: ListTask): ReadList {
  switch (format) {
    case 'csv':
      return readListCsv(text, mapping, timeZone)
    case 'hl7':
      return readSiu(text, timeZone)
    case 'icalendar':
      return readICalendar(text, { timeZone, now })
  }
}

function bounded(read: ReadList): ReadList {
  const over = read.appointments[mostAppointments]
  if (over === undefined) return read
  const says = `wanted at most ${mostAppointments} operations in one list, current number is ${read.appointments.length}: this one and those after it were left out`
  return {
    appointments: read.appointments.slice(0, mostAppointments),
    unreadable: [...read.unreadable, { line: over.line, says }],
  }
}
