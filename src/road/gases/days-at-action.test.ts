import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { Instant } from '../instant.ts'
import { dayIn } from '../local-day.ts'
import { policyFrom } from '../policy.ts'
import { daysAtAction } from './days-at-action.ts'
import type { ExposureFigures } from './room-exposure.ts'

const measured = (at: string, ppm: number, vapour: ExposureFigures['vapour'] = 'ethyleneOxide') => ({
  at: at as Instant,
  figures: { vapour, periods: [{ minutes: 480, ppm }], unlisted: 'unknown' as const },
})
const until = '2026-11-25T12:00:00.000Z' as Instant
const count = (list: readonly ReturnType<typeof measured>[], zone = 'UTC') =>
  daysAtAction(list, {
    vapour: 'ethyleneOxide',
    until,
    policy: policyFrom(undefined),
    dayOf: (at) => dayIn(zone, at),
  })

// 29 CFR 1910.1047: action level 0.5 ppm as a mean of 8 h.
test('days-at-action: from 0.5 ppm on, each calendar day of the unit once, this vapour and this year only', () => {
  const day = (hour: string, ppm: number) => measured(`2026-11-24T${hour}:00:00.000Z`, ppm)
  assert.equal(count([day('08', 0.49)]), 0)
  assert.equal(count([day('08', 0.5)]), 1)
  assert.equal(count([day('08', 0.5), day('20', 0.9)]), 1)
  assert.equal(count([day('08', 0.5), day('20', 0.9)], 'Asia/Tokyo'), 2)
  assert.equal(count([measured('2026-11-24T08:00:00.000Z', 0.6, 'formaldehyde')]), 0)
  assert.equal(count([measured('2025-11-25T12:00:00.000Z', 0.6)]), 0)
  assert.equal(count([measured('2025-11-25T12:01:00.000Z', 0.6)]), 1)
  assert.equal(count([measured('2026-11-25T12:01:00.000Z', 0.6)]), 0)
})
