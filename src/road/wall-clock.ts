/*
 * Moments as a `datetime-local` field holds them: wall-clock time of the unit, to the minute,
 * whatever the clock of the screen says.
 */

/** `2026-11-25T09:31` in the time zone. */
export function wallClock(instant: string, timeZone: string): string {
  const at = new Date(instant)
  return new Date(at.getTime() + offsetMillis(at, timeZone)).toISOString().slice(0, 16)
}

/** The instant at which a wall clock of the time zone shows this; undefined when it is no time. */
export function instantOfWallClock(local: string, timeZone: string): string | undefined {
  const asUtc = new Date(`${local}Z`)
  if (Number.isNaN(asUtc.getTime())) return undefined
  // The offset depends on the instant that is looked for: the second look is right on either side of a change of clocks.
  const near = new Date(asUtc.getTime() - offsetMillis(asUtc, timeZone))
  return new Date(asUtc.getTime() - offsetMillis(near, timeZone)).toISOString()
}

function offsetMillis(at: Date, timeZone: string): number {
  const formatter = new Intl.DateTimeFormat('en-GB', {
    timeZone,
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
    second: '2-digit',
    hourCycle: 'h23',
  })
  const part = new Map(formatter.formatToParts(at).map(({ type, value }) => [type, Number(value)]))
  const of = (type: Intl.DateTimeFormatPartTypes) => part.get(type) ?? 0
  const wall = Date.UTC(of('year'), of('month') - 1, of('day'), of('hour'), of('minute'), of('second'))
  return wall - Math.floor(at.getTime() / 1000) * 1000
}
