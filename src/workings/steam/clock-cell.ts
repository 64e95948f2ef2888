/*
 * Readers of one time cell. Each gives seconds on some running scale, or NaN; only differences are used, so a log
 * without a time zone is read as it stands.
 */

const isoForm = /^(\d{4})-(\d{2})-(\d{2})[T ](\d{2}):(\d{2})(?::(\d{2})(?:[.,](\d+))?)?\s*(Z|[+-]\d{2}:?\d{2})?$/i
const clockForm = /^T?(\d{1,3}):(\d{2})(?::(\d{2})(?:[.,](\d+))?)?\s*([ap]m)?$/i
const dateForm = /^(\d{1,4})[-./](\d{1,2})[-./](\d{1,4})$/

const secondsOf = (hours: number, minutes: number, seconds: number, fraction: string | undefined): number =>
  minutes < 60 && seconds < 60 ? hours * 3600 + minutes * 60 + seconds + Number(`0.${fraction ?? 0}`) : Number.NaN

/** Seconds since 1970 of an ISO 8601 time. */
export function isoSeconds(cell: string): number {
  const parts = isoForm.exec(cell.trim())
  if (parts === null) return Number.NaN
  const [, year, month, day, hour, minute, second = '0', fraction, zone] = parts
  const days = dayNumber(Number(year), Number(month), Number(day))
  const east = zone === undefined || /z/i.test(zone) ? 0 : zoneSeconds(zone)
  return days * 86_400 + secondsOf(Number(hour), Number(minute), Number(second), fraction) - east
}

/** Seconds since midnight of a clock time. */
export function clockSeconds(cell: string): number {
  const parts = clockForm.exec(cell.trim())
  if (parts === null) return Number.NaN
  const [, hour = '', minute, second = '0', fraction, half] = parts
  const hours = half === undefined ? Number(hour) : (Number(hour) % 12) + (/p/i.test(half) ? 12 : 0)
  return secondsOf(hours, Number(minute), Number(second), fraction)
}

/** Day numbers of a date under both orders of day and month; NaN where an order is impossible. */
export function dateDays(cell: string): { dayFirst: number; monthFirst: number } {
  const parts = dateForm.exec(cell.trim())
  if (parts === null) return { dayFirst: Number.NaN, monthFirst: Number.NaN }
  const [a, b, c] = [Number(parts[1]), Number(parts[2]), Number(parts[3])]
  if (a > 31) return { dayFirst: dayNumber(a, b, c), monthFirst: dayNumber(a, b, c) }
  const year = c < 100 ? 2000 + c : c
  return { dayFirst: dayNumber(year, b, a), monthFirst: dayNumber(year, a, b) }
}

/** Splits `04/03/2026 23:59:58` into its date and its clock time. */
export function splitDated(cell: string): { date: string; clock: string } {
  const text = cell.trim()
  const space = text.search(/[ T]+(?=\d{1,3}:)/)
  return space > 0 ? { date: text.slice(0, space), clock: text.slice(space).trim() } : { date: '', clock: text }
}

function zoneSeconds(zone: string): number {
  const digits = zone.replace(/\D/g, '')
  const size = Number(digits.slice(0, 2)) * 3600 + Number(digits.slice(2)) * 60
  return zone.startsWith('-') ? -size : size
}

function dayNumber(year: number, month: number, day: number): number {
  if (month < 1 || month > 12 || day < 1 || day > 31) return Number.NaN
  return Date.UTC(year, month - 1, day) / 86_400_000
}
