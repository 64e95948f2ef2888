import type { Instant } from '../../instant.ts'

/** Days of operations before the opening that an investigation covers when nobody says otherwise. */
export const usualWindowDays = 365

interface Opening {
  readonly at: Instant
  readonly from?: string | undefined
  readonly to?: string | undefined
}

/** The days of operation that an investigation is about, both included. */
export interface InvestigationWindow {
  readonly from: string
  readonly to: string
  /** Why it was set to these days, when somebody changed them after the opening. */
  readonly why: string | null
}

/**
 * The days that were set last; else those of the opening; else the usual ones up to the day of the opening. They are
 * fixed by the record and do not follow the clock: whoever asks years later asks about the same operations.
 */
export function windowOf(
  opened: Opening,
  set: InvestigationWindow | null,
  dayOf: (at: Instant) => string,
): InvestigationWindow {
  if (set !== null) return { from: set.from, to: set.to, why: set.why }
  const to = opened.to ?? dayOf(opened.at)
  return { from: opened.from ?? daysBeforeDay(to, usualWindowDays), to, why: null }
}

/** The calendar day so many days before another. */
export function daysBeforeDay(day: string, days: number): string {
  return new Date(Date.parse(day) - days * 86_400_000).toISOString().slice(0, 10)
}
