import type { Instant } from './instant.ts'

const days = new Map<string, Intl.DateTimeFormat>()
const hours = new Map<string, Intl.DateTimeFormat>()

/** The calendar day of a moment in a time zone, `2026-11-25`. */
export function dayIn(timeZone: string, moment: Instant): string {
  return formatFor(days, timeZone, { year: 'numeric', month: '2-digit', day: '2-digit' }).format(new Date(moment))
}

/** The time of day of a moment in a time zone, `17:30`. */
export function timeIn(timeZone: string, moment: Instant): string {
  return formatFor(hours, timeZone, { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' }).format(new Date(moment))
}

/** A time zone that nobody knows is taken as UTC: a rule never throws. */
function formatFor(
  kept: Map<string, Intl.DateTimeFormat>,
  timeZone: string,
  parts: Intl.DateTimeFormatOptions,
): Intl.DateTimeFormat {
  let format = kept.get(timeZone)
  if (format === undefined) {
    try {
      format = new Intl.DateTimeFormat('en-CA', { timeZone, ...parts })
    } catch {
      format = new Intl.DateTimeFormat('en-CA', { timeZone: 'UTC', ...parts })
    }
    kept.set(timeZone, format)
  }
  return format
}
