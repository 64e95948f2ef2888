import assert from 'node:assert/strict'
import { test } from 'node:test'
import * as fc from 'fast-check'
import { flushSeconds, flushTimeWorking } from './flush-time.ts'
import { convertHardness, hardnessUnits, hardnessWorking } from './hardness.ts'
import { lumenVolumeMl, lumenVolumeWorking } from './lumen-volume.ts'
import { near } from './near.suite.ts'

// Reference, section 7.
test('1 mmol/L is 100.09 mg/L, 5.608 German, 10.01 French, 7.02 Clark degrees and 5.85 grains per gallon', () => {
  const expected = [1, 100.09, 5.608, 10.01, 7.02, 5.85]
  for (const [index, unit] of hardnessUnits.entries()) {
    near(convertHardness(1, 'mmolPerL', unit), expected[index] ?? Number.NaN, 0.006)
  }
  near(convertHardness(1, 'grainsPerUsGallon', 'mgPerLCaCO3'), 17.118, 0.001)
})

test('hardness comes back through any other unit', () => {
  const unit = fc.constantFrom(...hardnessUnits)
  fc.assert(
    fc.property(unit, unit, fc.double({ min: 0, max: 1000, noNaN: true }), (one, other, value) => {
      near(convertHardness(convertHardness(value, one, other), other, one), value, 1e-9)
    }),
  )
})

test('hardness takes exactly one unit', () => {
  assert.partialDeepStrictEqual(hardnessWorking.run({ frenchDegrees: 0 }), { output: { mmolPerL: 0 } })
  for (const input of [{}, { mmolPerL: 1, frenchDegrees: 10 }, { mmolPerL: -1 }]) {
    assert.equal(hardnessWorking.run(input).kind, 'unusable')
  }
})

// Reference, section 8: 5 mm x 330 mm = 6.48 mL, 2.5 mm x 450 mm = 2.21 mL.
test('lumenVolumeMl is the volume of a cylinder', () => {
  near(lumenVolumeMl(5, 330), 6.48, 0.001)
  near(lumenVolumeMl(2.5, 450), 2.21, 0.002)
  assert.partialDeepStrictEqual(lumenVolumeWorking.run({ diameterMm: 2, lengthMm: 1000 / Math.PI, count: 3 }), {
    output: { ml: 3 },
  })
  assert.throws(() => lumenVolumeMl(0, 330), /diameterMm/)
})

test('flush-time says when its number of lumen volumes is only a proposal', () => {
  near(flushSeconds(10, 60), 30, 1e-12)
  const input = { volumeMl: 10, flowMlPerMinute: 60 }
  assert.partialDeepStrictEqual(flushTimeWorking.run(input), { output: { flushMl: 30, basis: 'proposal' } })
  assert.partialDeepStrictEqual(flushTimeWorking.run({ ...input, lumenVolumes: 5 }), {
    output: { seconds: 50, basis: 'given' },
  })
  assert.equal(flushTimeWorking.run({ volumeMl: 10, flowMlPerMinute: 0 }).kind, 'unusable')
})
