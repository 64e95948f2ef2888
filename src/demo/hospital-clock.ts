import { type Instant, instant, millis } from '#road/instant.ts'

/*
 * The hospital's year has a fixed number of working days that end with today, and its clock is set so that the demo
 * always ends at twenty to two in the afternoon: lists running, sets soaking, a load in the steriliser. What happened
 * on which working day therefore never depends on the date on which the demo is made.
 */

export const workingDays = 260
export const today = workingDays - 1

const minute = 60_000
const hour = 60 * minute
const day = 24 * hour
const minutesToday = 13 * 60 + 40

export interface HospitalClock {
  /** The moment at so many minutes after midnight of a working day, 0 the first, 259 today. */
  readonly at: (workingDay: number, minutes: number) => number
  /** Calendar days from one working day to another. */
  readonly daysBetween: (from: number, to: number) => number
  /** The last working day that is at most so many calendar days after another. */
  readonly dayAfter: (from: number, calendarDays: number) => number
  readonly until: number
  readonly timeZone: string
}

export function hospitalClockOf(until: Instant): HospitalClock {
  const end = millis(until)
  const eastHours = eastOf(end)
  const back = daysBackOf(end + eastHours * hour)
  const daysBack = (workingDay: number) => back[today - workingDay] ?? today - workingDay
  const daysBetween = (from: number, to: number) => daysBack(from) - daysBack(to)
  return {
    at: (workingDay, minutes) => end + (minutes - minutesToday) * minute - daysBack(workingDay) * day,
    daysBetween,
    dayAfter: (from, calendarDays) => {
      let to = from
      while (daysBetween(from, to + 1) <= calendarDays) to += 1
      return to
    },
    until: end,
    // The sign of these zones is the other way round: west is plus.
    timeZone: eastHours === 0 ? 'Etc/GMT' : `Etc/GMT${eastHours > 0 ? '-' : '+'}${Math.abs(eastHours)}`,
  }
}

/** The whole hours east of Greenwich at which it is nearest to twenty to two. */
function eastOf(end: number): number {
  const minutesThere = Math.floor((end % day) / minute)
  const hours = Math.round((minutesToday - minutesThere) / 60)
  return hours < -11 ? hours + 24 : hours > 12 ? hours - 24 : hours
}

/**
 * How many days ago each working day was, today first. Weekends are free, but for today and yesterday: whoever opens
 * the demo on a Sunday sees a unit at work. Days to come follow one another without a weekend: they are only booked.
 */
function daysBackOf(end: number): readonly number[] {
  const weekday = new Date(end).getUTCDay()
  const back: number[] = []
  for (let days = 0; back.length < workingDays; days += 1) {
    const on = (((weekday - days) % 7) + 7) % 7
    if (days < 2 || (on !== 0 && on !== 6)) back.push(days)
  }
  return back
}

export function instantOf(milliseconds: number): Instant {
  return instant(Math.round(milliseconds))
}
