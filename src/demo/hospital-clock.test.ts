import assert from 'node:assert/strict'
import { test } from 'node:test'
import { instant, type Instant, millis } from '#road/instant.ts'
import { hospitalClockOf, today } from './hospital-clock.ts'

const hours = Array.from({ length: 24 * 8 }, (_, hour) => instant(Date.UTC(2026, 1, 24, hour, 17)))

function clockFace(moment: number, timeZone: string): number {
  const parts = new Intl.DateTimeFormat('en-GB', { timeZone, hour: '2-digit', minute: '2-digit' }).format(moment)
  const [hour = 0, minute = 0] = parts.split(':').map(Number)
  return hour * 60 + minute
}

test('hospitalClockOf ends in the early afternoon of its time zone, at any hour of any weekday', () => {
  for (const until of hours) {
    const clock = hospitalClockOf(until)
    assert.equal(clock.at(today, 820), millis(until))
    assert.ok(Math.abs(clockFace(millis(until), clock.timeZone) - 820) <= 30, `${until} in ${clock.timeZone}`)
  }
})

test('hospitalClockOf counts 260 working days in a year, in order, none on a weekend but the last two', () => {
  for (const until of hours) {
    const clock = hospitalClockOf(until)
    const span = clock.daysBetween(0, today)
    assert.ok(span >= 358 && span <= 364, `${span} days before ${until}`)
    for (let day = 1; day <= today; day += 1) assert.ok(clock.at(day, 0) > clock.at(day - 1, 0))
    const weekday = new Intl.DateTimeFormat('en-GB', { weekday: 'short', timeZone: clock.timeZone })
    const free = Array.from({ length: today - 1 }, (_, day) => weekday.format(clock.at(day, 820))).filter((name) =>
      name.startsWith('S'),
    )
    assert.deepEqual(free, [])
  }
})

test('dayAfter gives the last working day within so many calendar days', () => {
  const clock = hospitalClockOf('2026-11-25T12:00:00.000Z' as Instant)
  const reached = clock.dayAfter(100, 45)
  assert.ok(clock.daysBetween(100, reached) <= 45)
  assert.ok(clock.daysBetween(100, reached + 1) > 45)
})
