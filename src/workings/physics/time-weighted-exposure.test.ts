import assert from 'node:assert/strict'
import { test } from 'node:test'
import * as fc from 'fast-check'
import { near } from './near.suite.ts'
import { roomClearanceMinutes, roomClearanceWorking } from './room-clearance.ts'
import {
  type ExposurePeriod,
  shiftMeanPpm,
  timeWeightedExposureWorking,
  worst15MinuteMeanPpm,
} from './time-weighted-exposure.ts'

function periods(...pairs: readonly (readonly [number, number])[]): ExposurePeriod[] {
  return pairs.map(([minutes, ppm]) => ({ minutes, ppm }))
}

function judged(list: ExposurePeriod[], more = {}): unknown {
  const result = timeWeightedExposureWorking.run({ periods: list, ...more })
  return result.kind === 'output' ? result.output : result
}

// Check cases A18 and A19 of the reference for gases.
test('8-hour means against limit and action level', () => {
  const day = periods([120, 2], [360, 0.3])
  near(shiftMeanPpm(day), 0.725, 1e-12)
  assert.partialDeepStrictEqual(judged(day), { shiftLimit: 'met', actionLevel: 'reached', excursionLimit: 'met' })
  const heavy = periods([240, 1], [240, 1.2])
  near(shiftMeanPpm(heavy), 1.1, 1e-12)
  assert.partialDeepStrictEqual(judged(heavy), { shiftLimit: 'notMet' })
})

test('a limit is met and an action level reached at equality', () => {
  assert.partialDeepStrictEqual(judged(periods([480, 1])), { shiftLimit: 'met' })
  assert.partialDeepStrictEqual(judged(periods([480, 0.5])), { actionLevel: 'reached' })
  assert.partialDeepStrictEqual(judged(periods([15, 5], [465, 0])), { excursionLimit: 'met' })
})

test('time nobody measured is not a pass', () => {
  const morning = periods([120, 0.4])
  assert.partialDeepStrictEqual(judged(morning), {
    shiftLimit: 'notEvaluable',
    actionLevel: 'notEvaluable',
    excursionLimit: 'notEvaluable',
  })
  assert.partialDeepStrictEqual(judged(morning, { unlistedTime: 'unexposed' }), {
    shiftLimit: 'met',
    actionLevel: 'below',
  })
  assert.partialDeepStrictEqual(judged(periods([120, 9])), { shiftLimit: 'notMet', excursionLimit: 'notMet' })
})

test('the worst 15 minutes may lie across periods', () => {
  near(worst15MinuteMeanPpm(periods([60, 0], [5, 9], [5, 3], [60, 0])) ?? Number.NaN, (45 + 15) / 15, 1e-12)
  near(worst15MinuteMeanPpm(periods([10, 6], [10, 6])) ?? Number.NaN, 6, 1e-12)
  assert.equal(worst15MinuteMeanPpm(periods([14, 6])), null)
})

test('no window that slides a minute at a time beats the worst 15 minutes', () => {
  const list = fc.array(
    fc
      .tuple(fc.integer({ min: 1, max: 40 }), fc.integer({ min: 0, max: 20 }))
      .map(([minutes, ppm]) => ({ minutes, ppm })),
    { minLength: 1, maxLength: 8 },
  )
  fc.assert(
    fc.property(list, (day) => {
      const byMinute = day.flatMap(({ minutes, ppm }) => Array.from({ length: minutes }, () => ppm))
      fc.pre(byMinute.length >= 15)
      const means = byMinute
        .slice(14)
        .map((_, start) => byMinute.slice(start, start + 15).reduce((sum, ppm) => sum + ppm, 0) / 15)
      near(worst15MinuteMeanPpm(day) ?? Number.NaN, Math.max(...means), 1e-9)
    }),
  )
})

// Reference for gases, section 1.3.
test('roomClearanceMinutes reproduces the air-change table', () => {
  for (const [airChanges, remaining, minutes] of [
    [15, 0.01, 18],
    [20, 0.01, 14],
    [15, 0.001, 28],
    [20, 0.001, 21],
  ] as const) {
    near(roomClearanceMinutes(airChanges, remaining), minutes, 0.5)
  }
  near(roomClearanceMinutes(15, 0.01, 3), 3 * roomClearanceMinutes(15, 0.01), 1e-9)
})

test('room-clearance refuses a room without air changes and a removal of everything', () => {
  assert.equal(roomClearanceWorking.run({ airChangesPerHour: 0 }).kind, 'unusable')
  assert.equal(roomClearanceWorking.run({ airChangesPerHour: 15, removalPercent: 100 }).kind, 'unusable')
  assert.partialDeepStrictEqual(roomClearanceWorking.run({ airChangesPerHour: 15 }), { output: { wholeMinutes: 28 } })
  assert.throws(() => roomClearanceMinutes(15, 0), /remainingFraction/)
})
