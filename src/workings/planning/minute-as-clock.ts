/** A minute from the start of the day as hours and minutes, with the day when it is a later one: `11:25`, `01:10 (day 2)`. */
export function minuteAsClock(minute: number): string {
  const day = Math.floor(minute / 1440)
  const pad = (value: number): string => String(value).padStart(2, '0')
  const clock = `${pad(Math.floor((minute % 1440) / 60))}:${pad(minute % 60)}`
  return day === 0 ? clock : `${clock} (day ${day + 1})`
}
