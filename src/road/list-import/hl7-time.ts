import type { Instant } from '../instant.ts'
import { instant } from '../instant.ts'
import { instantOfWallClock } from '../wall-clock.ts'

const form = /^(\d{4})(\d{2})(\d{2})(?:(\d{2})(\d{2})(?:(\d{2})(?:\.\d{1,4})?)?)?([+-]\d{4})?$/

/** The offset at the end of a time, `+0100`; undefined where there is none. */
export function hl7Offset(text: string): string | undefined {
  return form.exec(text)?.[7]
}

/**
 * A moment by HL7 v2.5.1, 2.A.22 (DTM): YYYYMMDDHHMM[SS[.S…]][±ZZZZ], the clause from memory. Without an offset it is in
 * that of MSH-7, which binds the whole message, and else by the clock of the unit. Undefined for what is no moment: a day
 * alone says not when.
 */
export function hl7Instant(text: string, timeZone: string, offset?: string): Instant | undefined {
  const [, year, month, day, hour, minute, second = '00', own] = form.exec(text) ?? []
  if (year === undefined || month === undefined || day === undefined || hour === undefined || minute === undefined)
    return undefined
  const wall = `${year}-${month}-${day}T${hour}:${minute}:${second}`
  const asUtc = Date.parse(`${wall}Z`)
  // The 31st of February is turned into a day of March by some readers; here it is no day.
  if (Number.isNaN(asUtc) || new Date(asUtc).toISOString().slice(0, 19) !== wall) return undefined
  const shift = own ?? offset
  if (shift === undefined) {
    const found = instantOfWallClock(wall, timeZone)
    return found === undefined ? undefined : (found as Instant)
  }
  const [hours, minutes] = [Number(shift.slice(1, 3)), Number(shift.slice(3, 5))]
  if (hours > 14 || minutes > 59) return undefined
  const sign = shift.startsWith('-') ? -1 : 1
  return instant(asUtc - sign * (hours * 60 + minutes) * 60_000)
}
