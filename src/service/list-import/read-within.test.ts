import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { Instant } from '#road/instant.ts'
import { plainMapping } from '#road/list-import/mapping.ts'
import { computeInWorkers } from '../compute/compute.ts'
import { readWithin } from './read-within.ts'

const calendar = (rule: string) =>
  ({
    format: 'icalendar',
    text: `BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:x\r\nBEGIN:VEVENT\r\nUID:u1\r\nDTSTART:20261201T080000Z\r\nRRULE:${rule}\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n`,
    mapping: plainMapping,
    timeZone: 'UTC',
    now: '2026-11-30T06:00:00.000Z' as Instant,
  }) as const

test('readWithin: a calendar without an end is stopped and says so, while this thread goes on; the next is read', async () => {
  const compute = computeInWorkers({ workers: 1, secondsAllowed: 60 })
  const good = await readWithin(compute, calendar('FREQ=DAILY;COUNT=2'), 60)
  assert.equal(good.appointments.length, 2)
  let ticks = 0
  const ticking = setInterval(() => (ticks += 1), 50)
  // No year has a 30 February.
  const endless = await readWithin(compute, calendar('FREQ=DAILY;BYMONTH=2;BYMONTHDAY=30'), 1)
  clearInterval(ticking)
  assert.deepEqual(endless.appointments, [])
  assert.match(endless.unreadable[0]?.says ?? '', /took too long and was stopped after 1 s: nothing of it was read/)
  assert.ok(ticks >= 3, `this thread went on: ${ticks}`)
  assert.equal((await readWithin(compute, calendar('FREQ=DAILY;COUNT=2'), 60)).appointments.length, 2)
  await compute.close()
})
