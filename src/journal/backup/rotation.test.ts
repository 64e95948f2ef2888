import assert from 'node:assert/strict'
import { describe, test } from 'node:test'
import { array, assert as assertProperty, integer, property, record } from 'fast-check'
import { type Instant, instant } from '#road/instant.ts'
import { toRemove, usualRotation } from './rotation.ts'

const day = 86_400_000
const noon = Date.UTC(2026, 10, 30, 12)

const made = (daysAgo: number, hours = 0) => ({ madeAt: instant(noon - daysAgo * day - hours * 3_600_000) })

describe('the rotation of backups', () => {
  test('given a backup a day for two years, then 7 days, 5 weeks and 12 months remain', () => {
    const all = Array.from({ length: 730 }, (_, index) => made(index))
    const gone = new Set(toRemove(all, usualRotation))
    const left = all.filter((backup) => !gone.has(backup)).map(({ madeAt }) => madeAt.slice(0, 10))
    // 2026-11-30 is a Monday.
    assert.deepEqual(
      left.slice(0, 7),
      ['30', '29', '28', '27', '26', '25', '24'].map((date) => `2026-11-${date}`),
    )
    // Sundays, the last day of each week; the last days of the months before.
    assert.deepEqual(left.slice(7, 10), ['2026-11-22', '2026-11-15', '2026-11-08'])
    assert.deepEqual(left.slice(10, 13), ['2026-10-31', '2026-09-30', '2026-08-31'])
    assert.equal(left.at(-1), '2025-12-31')
    assert.equal(left.length, 7 + 3 + 11)
  })

  test('given several on one day, then the last one stays', () => {
    const all = [made(0, 0), made(0, 3), made(0, 6), made(1)]
    assert.deepEqual(toRemove(all, { daily: 2, weekly: 0, monthly: 0 }), [all[1], all[2]])
  })

  test('the newest always stays, what stays is never more than was asked for, and doing it again removes nothing', () => {
    const count = integer({ min: 0, max: 14 })
    const rotation = record({ daily: count, weekly: count, monthly: count })
    const backups = array(integer({ min: 0, max: 2 * 365 * 24 }), { maxLength: 80 })
    assertProperty(
      property(backups, rotation, (hours, asked) => {
        const all = [...new Set(hours)].map((ago) => made(0, ago))
        const gone = toRemove(all, asked)
        const left = all.filter((backup) => !gone.includes(backup))
        assert.deepEqual(toRemove(left, asked), [])
        assert.ok(left.length <= Math.max(1, asked.daily + asked.weekly + asked.monthly))
        const newest = all.reduce<Instant | undefined>(
          (last, { madeAt }) => (last && last > madeAt ? last : madeAt),
          undefined,
        )
        if (newest !== undefined) assert.ok(left.some(({ madeAt }) => madeAt === newest))
      }),
      { numRuns: 500, seed: 20_261_130 },
    )
  })
})
