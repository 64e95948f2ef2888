import { type Instant, instant, millis } from '../instant.ts'

/** Minutes of one calendar day where the unit is; those of the days before it are negative. */
export interface DayClock {
  readonly day: string
  readonly minuteOf: (at: Instant) => number
  readonly instantOf: (minute: number) => Instant
}

/** @param day `2026-11-26`. Minutes run on through a change of the clock, so after one the hour shown is another. */
export function dayClock(day: string, timeZone: string): DayClock {
  const wanted = Date.parse(`${day}T00:00:00.000Z`)
  let start = wanted
  // Twice: the offset at the first guess may be that of the day before a change of the clock.
  for (let time = 0; time < 2; time += 1) start = wanted - offsetMillis(timeZone, start)
  return {
    day,
    minuteOf: (at) => Math.round((millis(at) - start) / 60_000),
    instantOf: (minute) => instant(start + minute * 60_000),
  }
}

/** `07:30` as minutes of the day. */
export function minutesOfClock(text: string): number {
  return Number(text.slice(0, 2)) * 60 + Number(text.slice(3, 5))
}

function offsetMillis(timeZone: string, at: number): number {
  const parts = formatFor(timeZone).formatToParts(new Date(at))
  const of = (type: string): number => Number(parts.find((part) => part.type === type)?.value ?? 0)
  const local = Date.UTC(of('year'), of('month') - 1, of('day'), of('hour'), of('minute'), of('second'))
  return local - Math.floor(at / 1000) * 1000
}

/** A time zone that nobody knows is taken as UTC, as everywhere. */
function formatFor(timeZone: string): Intl.DateTimeFormat {
  const parts = {
    year: 'numeric',
    month: 'numeric',
    day: 'numeric',
    hour: 'numeric',
    minute: 'numeric',
    second: 'numeric',
    hourCycle: 'h23',
  } as const
  try {
    return new Intl.DateTimeFormat('en-CA', { timeZone, ...parts })
  } catch {
    return new Intl.DateTimeFormat('en-CA', { timeZone: 'UTC', ...parts })
  }
}
