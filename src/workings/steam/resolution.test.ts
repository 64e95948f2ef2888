import assert from 'node:assert/strict'
import { test } from 'node:test'
import { noiseOf } from './noise.ts'
import { resolutionOf } from './resolution.ts'

const ramp = (step: number, count = 60) =>
  Float64Array.from({ length: count }, (_, index) => Math.round((20 + index * 0.377) / step) * step)

test('resolutionOf finds the step from the readings', () => {
  for (const step of [1, 0.5, 0.2, 0.1, 0.05, 0.01, 0.001])
    assert.ok(Math.abs(resolutionOf(ramp(step)) - step) < 1e-9, String(step))
  assert.equal(resolutionOf(Float64Array.from({ length: 60 }, (_, index) => Math.sqrt(index + 2))), 0)
})

test('noiseOf measures noise, not heating, corners or rounding', () => {
  let state = 7
  const random = () => ((state = (state * 16_807) % 2_147_483_647) - 1) / 2_147_483_646
  const normal = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
  const noisy = Float64Array.from({ length: 600 }, () => 134 + 0.1 * normal())
  assert.ok(Math.abs(noiseOf(noisy, 0, 599, 0) - 0.1) < 0.02)
  assert.ok(
    noiseOf(
      Float64Array.from({ length: 600 }, (_, t) => Math.min(134, 20 + t * 0.3)),
      0,
      599,
      0,
    ) < 1e-6,
  )
  assert.equal(
    noiseOf(
      Float64Array.from({ length: 600 }, (_, t) => 100 + Math.exp(t / 200)),
      0,
      599,
      0,
    ),
    0,
  )
  assert.ok(noiseOf(ramp(1, 600), 0, 599, 1) < 0.2)
})
