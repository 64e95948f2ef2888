import assert from 'node:assert/strict'
import { test } from 'node:test'
import { assert as holds, integer, property } from 'fast-check'
import type { GasProgram } from './gas-program.ts'
import { type GasCycleReading, readGasCycle } from './read-gas-cycle.ts'

/* Logs made from a known truth: gas goes in at one minute and out at another, and each variable may leave its window in between. */

interface Truth {
  readonly minutes: number
  readonly mgPerL?: number
  readonly celsius?: number
  readonly humidity?: number | null
  readonly dip?: { readonly from: number; readonly to: number; readonly celsius: number }
  readonly word?: string
  readonly cutAt?: number
}

function logOf({ minutes, mgPerL = 650, celsius = 54.5, humidity = 58, dip, word, cutAt = 9999 }: Truth): string {
  const rows = ['elapsed seconds,gas mg/L,temp °C' + (humidity === null ? '' : ',humidity %') + ',state']
  for (let half = 0; half <= 2 * (minutes + 60) && half / 2 < cutAt; half += 1) {
    const minute = half / 2
    const inside = minute >= 30 && minute <= 30 + minutes
    const low = dip !== undefined && minute >= dip.from && minute <= dip.to
    const shake = 0.3 * Math.sin(half)
    const cells = [
      minute * 60,
      (inside ? mgPerL + 10 * shake : 0.4).toFixed(1),
      ((low ? dip.celsius : celsius) + shake).toFixed(2),
      ...(humidity === null ? [] : [(humidity + shake).toFixed(1)]),
      word !== undefined && minute > 40 ? word : 'run',
    ]
    rows.push(cells.join(','))
  }
  return rows.join('\n')
}

function read(truth: Truth, program: string | GasProgram = 'ethylene-oxide'): GasCycleReading {
  const result = readGasCycle({ log: logOf(truth), program })
  assert.equal(result.kind, 'read', JSON.stringify(result))
  if (result.kind !== 'read') throw new TypeError('not read')
  return result.reading
}

test('the exposure is the time in all windows, over random exposures', () => {
  holds(
    property(integer({ min: 20, max: 300 }), (minutes) => {
      const reading = read({ minutes })
      assert.equal(reading.exposureSeconds, minutes * 60)
      // One sample either way is not known: an exposure that near its limit may stay open.
      if (minutes >= 60) assert.equal(reading.verdict, 'met')
      if (minutes <= 58) assert.equal(reading.verdict, 'notMet')
    }),
    { numRuns: 25, seed: 7 },
  )
})

test('a variable outside its window is not met, and is named', () => {
  const dry = read({ minutes: 90, humidity: 35 })
  assert.equal(dry.verdict, 'notMet')
  assert.equal(dry.criteria.find(({ id }) => id === 'relativeHumidityPercent')?.result, 'notMet')
  assert.equal(read({ minutes: 90, celsius: 65 }).verdict, 'notMet')
  assert.equal(read({ minutes: 90, mgPerL: 420 }).verdict, 'notMet')
  assert.equal(read({ minutes: 90, dip: { from: 70, to: 72, celsius: 30 } }).verdict, 'notMet')
  assert.equal(read({ minutes: 400 }).criteria.find(({ id }) => id === 'notTooLong')?.result, 'notMet')
})

test('a variable that was not logged is not evaluable, unless another is broken outright', () => {
  assert.equal(read({ minutes: 90, humidity: null }).verdict, 'notEvaluable')
  assert.equal(read({ minutes: 20, humidity: null }).verdict, 'notMet')
})

test('a cancelled cycle is not met, and a cut log is not evaluable', () => {
  const cancelled = read({ minutes: 90, word: 'CANCELLED moisture' })
  assert.equal(cancelled.cancelled, true)
  assert.equal(cancelled.verdict, 'notMet')
  assert.equal(read({ minutes: 200, cutAt: 70 }).verdict, 'notEvaluable')
})

test('a program that is not known is unusable', () => {
  assert.equal(readGasCycle({ log: logOf({ minutes: 60 }), program: 'peroxide' }).kind, 'unusable')
})
