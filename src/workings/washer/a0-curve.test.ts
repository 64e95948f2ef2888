import assert from 'node:assert/strict'
import { test } from 'node:test'
import * as fc from 'fast-check'
import { a0Seconds } from '../physics/a0.ts'
import { a0Curve } from './a0-curve.ts'

/* A0 is an integral over time (ISO 15883-1, Annex B), so what is gathered piece by piece is what is gathered at once. */

const minute = (minutes: number, temperatureC: number) => ({ seconds: minutes * 60, temperatureC })

test('given 90 °C held for five minutes, then A0 grows evenly to 3000 s', () => {
  const held = [0, 1, 2, 3, 4, 5].map((minutes) => minute(minutes, 90))
  assert.deepEqual(
    a0Curve(held, 120).map((value) => Math.round(value)),
    [0, 600, 1200, 1800, 2400, 3000],
  )
})

test('given a gap longer than is allowed, then it counts nothing', () => {
  assert.deepEqual(a0Curve([minute(0, 90), minute(5, 90)], 60), [0, 0])
})

test('the curve never falls, and ends at the A0 of the whole log', () => {
  const temperatures = fc.array(fc.double({ min: 15, max: 99, noNaN: true }), { minLength: 2, maxLength: 60 })
  fc.assert(
    fc.property(temperatures, (log) => {
      const samples = log.map((temperatureC, place) => ({ seconds: place * 10, temperatureC }))
      const curve = a0Curve(samples, 30)
      for (const [place, value] of curve.entries()) assert.ok(place === 0 || value >= (curve[place - 1] ?? 0))
      const whole = a0Seconds(samples, { maxGapSeconds: 30 })
      assert.ok(Math.abs((curve.at(-1) ?? 0) - whole) <= 1e-9 * Math.max(1, whole))
    }),
  )
})
