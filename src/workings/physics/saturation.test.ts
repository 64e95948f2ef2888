import assert from 'node:assert/strict'
import { test } from 'node:test'
import * as fc from 'fast-check'
import { saturationPressureKPa } from './saturation-pressure.ts'
import { saturationTemperatureC, saturationTemperatureWorking } from './saturation-temperature.ts'
import { superheatK, superheatWorking } from './superheat.ts'
import { near } from './near.suite.ts'

// IAPWS R7-97(2012), Tables 35 and 36; a few units of the last printed digit.
test('IF97 reproduces the verification tables of the release', () => {
  const pressures = [
    [300, 0.353658941e-2],
    [500, 0.263889776e1],
    [600, 0.123443146e2],
  ] as const
  for (const [kelvin, mPa] of pressures) near(saturationPressureKPa(kelvin - 273.15), mPa * 1000, mPa * 5e-6)
  const temperatures = [
    [0.1, 372.755919],
    [1, 453.035632],
    [10, 584.149488],
  ] as const
  for (const [mPa, kelvin] of temperatures) near(saturationTemperatureC(mPa * 1000), kelvin - 273.15, 1e-6)
})

// The practical table of the reference: IF97 pressure, and the three-constant temperature of that pressure.
test('both equations reproduce the practical table from 100 to 138 °C', () => {
  const rows = [
    [100, 101.418, 100.117],
    [110, 143.376, 110.131],
    [115, 169.177, 115.135],
    [121, 205.039, 121.137],
    [121.1, 205.685, 121.237],
    [124, 225.168, 124.136],
    [126, 239.46, 126.136],
    [129, 262.274, 129.134],
    [132, 286.823, 132.131],
    [134, 304.199, 134.128],
    [135, 313.201, 135.127],
    [137, 331.852, 137.124],
    [138, 341.508, 138.122],
  ] as const
  for (const [celsius, kPa, threeConstantC] of rows) {
    near(saturationPressureKPa(celsius), kPa, 0.0006)
    near(saturationTemperatureC(saturationPressureKPa(celsius), { equation: 'threeConstant' }), threeConstantC, 0.0006)
  }
})

/** The second, independent method: Wagner-Pruss, IAPWS SR1-86(1992). */
function wagnerPrussKPa(celsius: number): number {
  const kelvin = celsius + 273.15
  const tau = 1 - kelvin / 647.096
  const sum =
    -7.85951783 * tau +
    1.84408259 * tau ** 1.5 -
    11.7866497 * tau ** 3 +
    22.6807411 * tau ** 3.5 -
    15.9618719 * tau ** 4 +
    1.80122502 * tau ** 7.5
  return 22_064 * Math.exp((647.096 / kelvin) * sum)
}

test('IF97 agrees with Wagner-Pruss within 0.03 kPa from 100 to 138 °C', () => {
  for (let celsius = 100; celsius <= 138; celsius += 0.5) {
    near(saturationPressureKPa(celsius), wagnerPrussKPa(celsius), 0.03)
  }
})

test('temperature and pressure undo each other, for either equation and any air', () => {
  const celsius = fc.double({ min: 0.5, max: 373.9, noNaN: true })
  const air = fc.double({ min: 0, max: 0.9, noNaN: true })
  fc.assert(
    fc.property(celsius, air, fc.constantFrom('if97', 'threeConstant'), (temperatureC, airFraction, equation) => {
      const options = { equation, airFraction }
      const pressureKPa = saturationPressureKPa(temperatureC, options)
      // The three-constant curve leaves the range of IF97 near its ends.
      fc.pre(pressureKPa * (1 - airFraction) > 0.62 && pressureKPa * (1 - airFraction) < 22_064)
      near(saturationTemperatureC(pressureKPa, options), temperatureC, 1e-4)
    }),
  )
})

test('the ends of the saturation line survive a round trip', () => {
  near(saturationTemperatureC(saturationPressureKPa(0)), 0, 1e-6)
  near(saturationTemperatureC(saturationPressureKPa(373.946)), 373.946, 1e-4)
})

test('saturation pressure rises with temperature, and air lowers the temperature', () => {
  const celsius = fc.double({ min: 0, max: 373, noNaN: true })
  fc.assert(
    fc.property(celsius, fc.double({ min: 0.001, max: 0.9, noNaN: true }), (temperatureC, step) => {
      assert.ok(saturationPressureKPa(temperatureC + step) > saturationPressureKPa(temperatureC))
    }),
  )
  fc.assert(
    fc.property(
      fc.double({ min: 100, max: 400, noNaN: true }),
      fc.double({ min: 0.001, max: 0.5, noNaN: true }),
      (kPa, airFraction) => {
        assert.ok(saturationTemperatureC(kPa, { airFraction }) < saturationTemperatureC(kPa))
      },
    ),
  )
})

// Reference, section 5 and trap 9: at the pressure of 134 °C.
test('5 % air lowers 134 °C by 1.75 K and passes a 2 K limit; 10 % does not', () => {
  const total = saturationPressureKPa(134)
  for (const [airFraction, celsius] of [
    [0.01, 133.66],
    [0.05, 132.26],
    [0.1, 130.43],
  ] as const) {
    near(saturationTemperatureC(total, { airFraction }), celsius, 0.006)
  }
  const resultAt = (temperatureC: number) => superheatWorking.run({ temperatureC, pressureKPa: total })
  assert.partialDeepStrictEqual(resultAt(132.26), { output: { result: 'met' } })
  assert.partialDeepStrictEqual(resultAt(130.43), { output: { result: 'notMet' } })
})

test('superheat is measured minus theoretical, and a difference on the limit passes', () => {
  near(superheatK(134.5, 310), -0.147, 0.002)
  near(superheatK(137, 304), 3.022, 0.002)
  const differenceK = superheatK(137, 304)
  const result = superheatWorking.run({ temperatureC: 137, pressureKPa: 304, limitK: differenceK })
  assert.partialDeepStrictEqual(result, { output: { result: 'met' } })
})

test('a pressure off the saturation line is refused, in code and through the working', () => {
  assert.throws(() => saturationPressureKPa(-0.1), RangeError)
  assert.throws(() => saturationPressureKPa(Number.NaN), /temperatureC: wanted number from 0 to 373\.946/)
  assert.throws(() => saturationTemperatureC(0), RangeError)
  assert.throws(() => saturationTemperatureC(100, { airFraction: 1 }), /airFraction/)
  const inputs = [
    { pressureKPa: 0 },
    { pressureKPa: 0.5 },
    { pressureKPa: 30_000 },
    { pressureKPa: 100, airFraction: 1 },
    { pressureKPa: 1, airFraction: 0.9 },
    { pressureKPa: 100, equation: 'antoine' },
    { pressure: 100 },
    {},
  ]
  for (const input of inputs)
    assert.equal(saturationTemperatureWorking.run(input).kind, 'unusable', JSON.stringify(input))
})
