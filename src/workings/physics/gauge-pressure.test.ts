import assert from 'node:assert/strict'
import { test } from 'node:test'
import { gaugePressureKPa, gaugePressureWorking } from './gauge-pressure.ts'
import { standardAtmosphereKPa } from './standard-atmosphere.ts'
import { near } from './near.suite.ts'

// Practical table of the reference, gauge against 101.325 kPa: °C, kPa, psi.
test('a gauge at sea level reads what the practical table says', () => {
  for (const [temperatureC, gaugeKPa, gaugePsi] of [
    [100, 0.09, 0.01],
    [121, 103.71, 15.04],
    [134, 202.87, 29.42],
    [138, 240.18, 34.84],
  ] as const) {
    near(gaugePressureKPa(temperatureC, 101.325), gaugeKPa, 0.006)
    const result = gaugePressureWorking.run({ temperatureC, atmosphereKPa: 101.325 })
    assert.equal(result.kind, 'output')
    const output = gaugePressureWorking.output.parse(result.kind === 'output' ? result.output : undefined)
    assert.ok(typeof output === 'object' && output !== null && 'gaugePsi' in output)
    near(Number(output.gaugePsi), gaugePsi, 0.006)
  }
})

test('at 1500 m 121 °C needs 120.5 kPa gauge, not 103.7', () => {
  near(standardAtmosphereKPa(1500), 84.56, 0.01)
  near(gaugePressureKPa(121, standardAtmosphereKPa(1500)), 120.5, 0.05)
})

test('the output says where its atmosphere came from', () => {
  const from = (input: object) => gaugePressureWorking.run({ temperatureC: 121, ...input })
  assert.partialDeepStrictEqual(from({ atmosphereKPa: 90 }), { output: { atmosphereKPa: 90, atmosphereFrom: 'given' } })
  assert.partialDeepStrictEqual(from({ altitudeM: 0 }), {
    output: { atmosphereKPa: 101.325, atmosphereFrom: 'altitude' },
  })
  assert.partialDeepStrictEqual(from({}), { output: { atmosphereKPa: 101.325, atmosphereFrom: 'sea level assumed' } })
  assert.equal(from({ atmosphereKPa: 90, altitudeM: 1000 }).kind, 'unusable')
})

test('standardAtmosphereKPa refuses an altitude outside its layer', () => {
  assert.throws(
    () => standardAtmosphereKPa(12_000),
    /altitudeM: wanted number from -500 to 11000, current value is 12000/,
  )
})
