import { z } from 'zod'

/** A moment in UTC with milliseconds, `2026-11-25T09:31:00.000Z`: text order is time order. */
export const Instant = z.iso.datetime({ precision: 3 }).brand<'instant'>()
export type Instant = z.infer<typeof Instant>

export function millis(instant: Instant): number {
  return Date.parse(instant)
}

/** The instant of a count of milliseconds since 1970. */
export function instant(milliseconds: number): Instant {
  return new Date(milliseconds).toISOString() as Instant
}

export function minutesBetween(from: Instant, to: Instant): number {
  return (millis(to) - millis(from)) / 60_000
}
