import assert from 'node:assert/strict'
import { test } from 'node:test'
import { assert as holds, integer, property } from 'fast-check'
import { gasMethods, gasProgramByKey, gasPrograms, type GasProgram } from './gas-program.ts'
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

const text = (header: string, rows: readonly (readonly (number | string)[])[]) =>
  [header, ...rows.map((row) => row.join(','))].join('\n')
const minutesTo = (end: number) => Array.from({ length: end + 1 }, (_, minute) => minute)

test('a lone gas sensor that stands still while the rest moves is not believed', () => {
  const log = (stuck: boolean) =>
    text(
      'elapsed seconds,gas mg/L,temp °C,humidity %',
      minutesTo(200).map((minute) => {
        const gas = minute < 20 || minute > 60 ? 0 : 650 + Math.sin(minute)
        const cold = minute > 110 ? 30 : 54.5
        return [
          minute * 60,
          (stuck && minute >= 40 ? 650.7 : gas).toFixed(1),
          (cold + 0.3 * Math.sin(minute * 2)).toFixed(1),
          (58 + 2 * Math.sin(minute)).toFixed(1),
        ]
      }),
    )
  const short = readGasCycle({ log: log(false), program: 'ethylene-oxide' })
  assert.ok(short.kind === 'read' && short.reading.verdict === 'notMet')
  const stuck = readGasCycle({ log: log(true), program: 'ethylene-oxide' })
  assert.ok(stuck.kind === 'read')
  assert.equal(stuck.reading.verdict, 'notEvaluable')
  assert.ok(stuck.reading.findings.some(({ rule }) => rule === 'stuck-sensor'))
})

test('a gap in the exposure is not evaluable, and told', () => {
  const [header, ...rows] = logOf({ minutes: 80 }).split('\n')
  const gap = rows.filter((row) => Number(row.split(',')[0]) < 4000 || Number(row.split(',')[0]) > 5000)
  const result = readGasCycle({ log: [header, ...gap].join('\n'), program: 'ethylene-oxide' })
  assert.ok(result.kind === 'read')
  assert.equal(result.reading.verdict, 'notEvaluable')
  assert.ok(result.reading.findings.some(({ rule }) => rule === 'gap'))
})

test('hydrogen peroxide and formaldehyde state no time: never met, and broken outright when never inside (unverified windows)', () => {
  const log = (celsius: number) =>
    text(
      'elapsed seconds,peroxide mg/L,temp °C',
      minutesTo(60).map((minute) => [
        minute * 60,
        minute > 10 && minute < 40 ? 6 + 0.01 * minute : 0,
        celsius + 0.1 * (minute % 3),
      ]),
    )
  const verdict = (program: string, celsius: number) => {
    const result = readGasCycle({ log: log(celsius), program })
    assert.ok(result.kind === 'read', JSON.stringify(result))
    return result.reading.verdict
  }
  assert.equal(verdict('peroxide-vapour', 45), 'notEvaluable')
  assert.equal(verdict('peroxide-plasma', 45), 'notEvaluable')
  assert.equal(verdict('peroxide-plasma', 53), 'notMet', 'gas plasma runs below 50 °C (CDC 2008, Table 6)')
  assert.equal(verdict('peroxide-vapour', 53), 'notEvaluable')
  // C21: at 50 °C spores survived in the full load.
  assert.equal(verdict('formaldehyde-steam', 49), 'notMet')
  assert.equal(verdict('formaldehyde-steam', 60), 'notEvaluable')
})

test('every method has a programme, and a figure from memory says so', () => {
  assert.deepEqual([...new Set(gasPrograms.map(({ program }) => program.method))].sort(), [...gasMethods].sort())
  const status = (key: string) => gasProgramByKey(key)?.source.status
  assert.deepEqual(['ethylene-oxide', 'peroxide-vapour', 'dry-heat-160', 'dry-heat-140'].map(status), [
    'secondary',
    'unverified',
    'secondary',
    'unverified',
  ])
  // Published pairs of plateau: 160 °C 120 min, 170 °C 60 min, 180 °C 30 min; from memory 150 and 140 °C 180 min.
  const minutes = (celsius: number) => (gasProgramByKey(`dry-heat-${celsius}`)?.program.exposureSeconds ?? 0) / 60
  assert.deepEqual([140, 150, 160, 170, 180].map(minutes), [180, 180, 120, 60, 30])
})

test('a log of a time, one sensor and a status is read: cells of words are fewer than the others', () => {
  const program = gasPrograms.find(({ program: { method, windows } }) => method === 'dryHeat' && windows.length === 1)
  assert.ok(program !== undefined)
  const window = program.program.windows[0]
  assert.ok(window !== undefined)
  const inside = (window.from ?? 0) + 2
  const minutes = Math.ceil((program.program.exposureSeconds ?? 0) / 60) + 5
  const rows = (celsius: number) =>
    Array.from({ length: minutes + 21 }, (_, minute) => {
      const hot = minute >= 10 && minute <= 10 + minutes
      return `${minute * 60},${((hot ? celsius : 40) + 0.3 * Math.sin(minute)).toFixed(2)},${hot ? 'hold' : 'idle'}`
    })
  const verdict = (celsius: number) => {
    const log = ['elapsed seconds,temp °C,status', ...rows(celsius)].join('\n')
    const result = readGasCycle({ log, program: program.key })
    assert.equal(result.kind, 'read', JSON.stringify(result))
    return result.kind === 'read' ? result.reading.verdict : null
  }
  assert.equal(verdict(inside), 'met')
  assert.equal(verdict(inside - 10), 'notMet')
})
