import assert from 'node:assert/strict'
import { test } from 'node:test'
import { a0HoldSeconds, a0HoldTimeWorking } from './a0-hold-time.ts'
import { type A0Sample, a0Seconds, a0Working } from './a0.ts'
import { near } from './near.suite.ts'

function log(...pairs: readonly (readonly [number, number])[]): A0Sample[] {
  return pairs.map(([seconds, temperatureC]) => ({ seconds, temperatureC }))
}

// Reference, section 6: seconds for A0 60, 600 and 3000.
test('a0HoldSeconds reproduces the table, and a0Seconds gives the A0 back', () => {
  for (const [celsius, for60, for600, for3000] of [
    [65, 1897, 18_974, 94_868],
    [70, 600, 6000, 30_000],
    [75, 190, 1897, 9487],
    [80, 60, 600, 3000],
    [85, 19, 190, 949],
    [90, 6, 60, 300],
    [93, 3, 30.1, 150.4],
    [95, 1.9, 19, 94.9],
  ] as const) {
    for (const [wanted, seconds] of [
      [60, for60],
      [600, for600],
      [3000, for3000],
    ] as const) {
      near(a0HoldSeconds(celsius, wanted), seconds, seconds < 160 && seconds % 1 !== 0 ? 0.06 : 0.6)
      near(a0Seconds(log([0, celsius], [a0HoldSeconds(celsius, wanted), celsius])), wanted, 1e-9 * wanted)
    }
  }
})

// Old fixed pairs, reference section 6: none of them is A0 600.
test('old fixed pairs are worth 19, 23, 60 and 10', () => {
  for (const [celsius, seconds, worth] of [
    [65, 600, 19],
    [71, 180, 23],
    [80, 60, 60],
    [90, 1, 10],
  ] as const) {
    near(a0Seconds(log([0, celsius], [seconds, celsius])), worth, 0.5)
  }
})

const programme = log([0, 20], [300, 45], [900, 45], [1500, 65], [2000, 90], [2300, 90], [2400, 70], [2600, 50])

/** Midpoint rule in hundredths of a second, each counted only at 65 °C or above. */
function byQuadrature(samples: readonly A0Sample[]): number {
  let total = 0
  for (const [index, to] of samples.entries()) {
    const from = samples[index - 1]
    if (from === undefined) continue
    const slices = (to.seconds - from.seconds) * 100
    for (let n = 0; n < slices; n += 1) {
      const celsius = from.temperatureC + ((n + 0.5) / slices) * (to.temperatureC - from.temperatureC)
      if (celsius >= 65) total += 10 ** ((celsius - 80) / 10) / 100
    }
  }
  return total
}

// Trap 6: a piece that crosses 65 °C is cut there.
test('a0Seconds counts from 65 °C exactly and nothing below', () => {
  near(a0Seconds(programme), byQuadrature(programme), 0.01)
  near(a0Seconds(programme, { floorC: null }), 4089.4, 0.01)
  assert.ok(a0Seconds(programme) < a0Seconds(programme, { floorC: null }))
  assert.equal(a0Seconds(log([0, 64.9], [36_000, 64.9])), 0)
  near(a0Seconds(log([0, 65], [600, 65])), 600 * 10 ** -1.5, 1e-9)
})

test('drying after the disinfection stage does not count', () => {
  const withDrying = [...programme, ...log([2700, 100], [3600, 100])]
  near(a0Seconds(withDrying, { untilSeconds: 2600 }), a0Seconds(programme), 1e-9)
  near(a0Seconds(log([0, 90], [600, 90]), { untilSeconds: 300 }), 3000, 1e-9)
  assert.ok(a0Seconds(withDrying) > 2 * a0Seconds(programme))
})

test('the coldest channel decides, and a gap counts nothing', () => {
  const channels = [
    { name: 'top', samples: log([0, 90], [300, 90]) },
    { name: 'corner', samples: log([0, 80], [300, 80]) },
  ]
  assert.partialDeepStrictEqual(a0Working.run({ channels }), { output: { a0Seconds: 300, decidedBy: 'corner' } })
  const gappy = log([0, 80], [10, 80], [200, 80], [210, 80])
  assert.partialDeepStrictEqual(a0Working.run({ samples: gappy, maxGapSeconds: 30 }), { output: { a0Seconds: 20 } })
})

test('a0 and a0-hold-time refuse what means nothing', () => {
  for (const samples of [[], log([0, 90]), log([10, 90], [0, 90]), log([-1, 90], [1, 90])]) {
    assert.equal(a0Working.run({ samples }).kind, 'unusable', JSON.stringify(samples))
  }
  assert.equal(a0HoldTimeWorking.run({ temperatureC: 64.9, a0Seconds: 600 }).kind, 'unusable')
  assert.throws(() => a0HoldSeconds(64.9, 600), /temperatureC: wanted number from 65/)
})
