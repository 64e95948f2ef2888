import { type Instant, instant, millis } from '#road/instant.ts'

/** The moment of a minute of the day that begins at `startsAt`. */
export function instantAt(startsAt: Instant, minute: number): Instant {
  return instant(millis(startsAt) + Math.round(minute) * 60_000)
}
