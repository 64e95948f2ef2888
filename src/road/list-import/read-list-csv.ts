import { csvCells } from '../csv-cells.ts'
import type { Instant } from '../instant.ts'
import { instantOfWallClock } from '../wall-clock.ts'
import { type Appointment, identityFrom, type ReadList, type Unreadable } from './appointment.ts'
import { type ListColumn, listColumns, type ListMapping } from './mapping.ts'

const needed = ['ref'] as const
const cancelledWords = new Set(['cancelled', 'canceled', 'deleted'])
const bookedWords = new Set(['', 'booked', 'confirmed', 'planned', 'scheduled'])
const yesWords = new Set(['yes', 'y', 'true', '1', 'x'])
const noWords = new Set(['no', 'n', 'false', '0'])

/** A list of operations as a spreadsheet saves it, with commas, semicolons or tabs. A row that is not there says nothing. */
export function readListCsv(text: string, mapping: ListMapping, timeZone: string): ReadList {
  const rows = csvCells(text, separatorOf(text)).filter(({ cells }) => cells.some((cell) => cell.trim() !== ''))
  const [head, ...rest] = rows
  const headings = (head?.cells ?? []).map((cell) => cell.trim())
  const places = placesOf(headings, mapping)
  const says = whatIsMissing(headings, places, mapping)
  if (says !== undefined) return { appointments: [], unreadable: [{ line: head?.row ?? 1, says }] }
  const appointments: Appointment[] = []
  const unreadable: Unreadable[] = []
  for (const { row, cells } of rest) {
    const cell = (column: ListColumn): string => {
      const place = places.get(column)
      return place === undefined ? '' : (cells[place] ?? '').trim()
    }
    const read = rowOf(row, cell, { mapping, timeZone })
    if ('says' in read) unreadable.push(read)
    else appointments.push(read)
  }
  return { appointments, unreadable }
}

/** The headings of a list, for whoever maps them. */
export function headingsOf(text: string): readonly string[] {
  return (csvCells(text.slice(0, 20_000), separatorOf(text))[0]?.cells ?? [])
    .map((cell) => cell.trim())
    .filter((cell) => cell !== '')
}

/** The separator that stands most often in the first line. */
function separatorOf(text: string): string {
  const first = text.split(/[\r\n]/, 1)[0] ?? ''
  const count = (separator: string): number => first.split(separator).length
  return [',', ';', '\t'].reduce((best, each) => (count(each) > count(best) ? each : best))
}

function placesOf(headings: readonly string[], { columns }: ListMapping): ReadonlyMap<ListColumn, number> {
  const small = headings.map((heading) => heading.toLowerCase())
  const found = (Object.keys(listColumns) as ListColumn[]).map(
    (column) => [column, small.indexOf((columns[column] ?? column).toLowerCase())] as const,
  )
  return new Map(found.filter(([, place]) => place >= 0))
}

function whatIsMissing(
  headings: readonly string[],
  places: ReadonlyMap<ListColumn, number>,
  { columns }: ListMapping,
): string | undefined {
  const lost = Object.entries(columns).filter(([column]) => !places.has(column as ListColumn))
  const without = needed.filter((column) => !places.has(column))
  const problems = [
    ...lost.map(([column, heading]) => `no column is headed ${JSON.stringify(heading)}, which was named for ${column}`),
    ...without.map((column) => `no column was named for ${column}: ${listColumns[column]}`),
    ...(places.has('start') || places.has('date') ? [] : [`no column was named for start: ${listColumns.start}`]),
  ]
  return problems.length === 0 ? undefined : `${problems.join('; ')}. The file has: ${headings.join(', ')}`
}

function rowOf(
  line: number,
  cell: (column: ListColumn) => string,
  { mapping, timeZone }: { readonly mapping: ListMapping; readonly timeZone: string },
): Appointment | Unreadable {
  const ref = cell('ref').slice(0, 200)
  if (ref === '') return { line, says: `ref: wanted ${listColumns.ref}, current value is missing` }
  const base = { line, ref, from: `list row ${line}`, saidAt: null }
  const identity = identityFrom({
    name: textOf(cell('name')),
    hospitalNumber: textOf(cell('hospitalNumber')),
    bornOn: textOf(cell('bornOn')),
    phone: textOf(cell('phone')),
  })
  const pseudonym = textOf(cell('pseudonym'))?.slice(0, 40)
  const status = cell('status').toLowerCase()
  if (cancelledWords.has(status)) return { ...base, is: 'cancelled', identity, pseudonym, remarks: [] }
  // A word that nobody here knows may say that it does not take place: it is not taken for booked.
  if (!bookedWords.has(status)) {
    const says = `status: wanted booked, confirmed, planned, scheduled or cancelled, or nothing, current value is ${JSON.stringify(status.slice(0, 40))}`
    return { line, ref, says }
  }
  const written = cell('start') === '' ? `${cell('date')} ${cell('time')}`.trim() : cell('start')
  const startsAt = momentOf(written, mapping.dateOrder, timeZone)
  if (startsAt === undefined) {
    const says = `start: wanted a date and a time such as 2026-11-30 07:30, current value is ${JSON.stringify(written.slice(0, 40))}`
    return { line, ref, says }
  }
  const minutes = cell('minutes')
  const length = /^\d{1,4}$/.test(minutes) ? Number(minutes) : undefined
  const remarks = minutes !== '' && length === undefined ? [`minutes: ${JSON.stringify(minutes)} was left out`] : []
  const surgeon = cell('surgeon')
  const implant = implantOf(cell('implant'))
  return {
    ...base,
    is: 'booked',
    startsAt,
    minutes: length !== undefined && length >= 1 && length <= 1440 ? length : undefined,
    theatre: textOf(cell('theatre')),
    surgeon: surgeon === '' ? undefined : [surgeon],
    procedure: textOf(cell('procedure')),
    implantPlanned: implant.planned,
    pseudonym,
    identity,
    remarks: [...remarks, ...implant.remarks],
  }
}

function textOf(text: string): string | undefined {
  return text === '' ? undefined : text
}

/** A text that is neither yes nor no, such as the name of a prosthesis, counts as yes: the strict reading. */
function implantOf(text: string): { readonly planned: boolean | undefined; readonly remarks: readonly string[] } {
  const word = text.toLowerCase()
  if (word === '') return { planned: undefined, remarks: [] }
  if (yesWords.has(word) || noWords.has(word)) return { planned: yesWords.has(word), remarks: [] }
  return {
    planned: true,
    remarks: [`implant: ${JSON.stringify(text.slice(0, 40))} is neither yes nor no: taken as yes`],
  }
}

const withZone = /^(\d{4}-\d{2}-\d{2}[T ]\d{2}:\d{2})(?::\d{2}(?:\.\d+)?)?(?:Z|[+-]\d{2}:?\d{2})$/i
const international = /^(\d{4})-(\d{1,2})-(\d{1,2})[T ]+(\d{1,2})[:.](\d{2})(?::\d{2})?$/
const national = /^(\d{1,2})[./-](\d{1,2})[./-](\d{4})[T ,]+(\d{1,2})[:.](\d{2})(?::\d{2})?$/

/** A date and a time: with an offset a moment as it is, else by the clock of the unit. */
function momentOf(text: string, order: ListMapping['dateOrder'], timeZone: string): Instant | undefined {
  const zoned = withZone.exec(text)?.[1]
  if (zoned !== undefined) {
    if (!isWall(zoned.replace(/[t ]/i, 'T'))) return undefined
    const at = new Date(text.replace(' ', 'T'))
    return Number.isNaN(at.getTime()) ? undefined : (at.toISOString() as Instant)
  }
  const ymd = international.exec(text)?.slice(1)
  const own = national.exec(text)?.slice(1)
  const [first = '', second = '', third = '', hour = '', minute = ''] = ymd ?? own ?? []
  const [year, month, day] =
    ymd !== undefined ? [first, second, third] : order === 'dayFirst' ? [third, second, first] : [third, first, second]
  const two = (part: string): string => part.padStart(2, '0')
  const wall = `${year}-${two(month)}-${two(day)}T${two(hour)}:${two(minute)}`
  if (!isWall(wall)) return undefined
  const found = instantOfWallClock(wall, timeZone)
  return found === undefined ? undefined : (found as Instant)
}

/** The 31st of February is turned into a day of March by the reader of dates; here it is no day. */
function isWall(wall: string): boolean {
  const asUtc = new Date(`${wall}Z`)
  return !Number.isNaN(asUtc.getTime()) && asUtc.toISOString().slice(0, 16) === wall
}
