import { z } from 'zod'
import type { Instant } from '#road/instant.ts'
import { instantOfWallClock } from '#road/wall-clock.ts'
import type { Period } from './tables.ts'

const Day = z.iso.date()

export const PeriodInput = z.strictObject({
  /** The first day, and the last, by the clock of the unit. */
  from: Day.optional(),
  to: Day.optional(),
})

/** The moments of two days of the unit, the last day included. */
export function periodOf({ from, to }: z.infer<typeof PeriodInput>, timeZone: string): Period {
  const begins = (day: string | undefined): Instant | undefined =>
    day === undefined ? undefined : (instantOfWallClock(`${day}T00:00`, timeZone) as Instant | undefined)
  const after = to === undefined ? undefined : new Date(Date.parse(to) + 86_400_000).toISOString().slice(0, 10)
  return { from: begins(from), to: begins(after) }
}
