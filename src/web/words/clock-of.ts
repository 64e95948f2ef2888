import { minuteAsClock } from '#workings/planning/minute-as-clock.ts'

/** A minute of the day as `08:05`; one before midnight by the clock of the day before. */
export function clockOf(minute: number): string {
  return minuteAsClock(minute < 0 ? minute + 1440 : minute)
}
