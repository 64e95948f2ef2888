import type { Instant } from './instant.ts'

const formats = new Map<string, Intl.DateTimeFormat>()

/** The calendar day of a moment in a time zone, `2026-11-25`. */
export function dayIn(timeZone: string, moment: Instant): string {
  let format = formats.get(timeZone)
  if (format === undefined) {
    format = formatFor(timeZone)
    formats.set(timeZone, format)
  }
  return format.format(new Date(moment))
}

/** A time zone that nobody knows is taken as UTC: a rule never throws. */
function formatFor(timeZone: string): Intl.DateTimeFormat {
  const parts = { year: 'numeric', month: '2-digit', day: '2-digit' } as const
  try {
    return new Intl.DateTimeFormat('en-CA', { timeZone, ...parts })
  } catch {
    return new Intl.DateTimeFormat('en-CA', { timeZone: 'UTC', ...parts })
  }
}
