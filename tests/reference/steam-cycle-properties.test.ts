import assert from 'node:assert/strict'
import { test } from 'node:test'
import * as fc from 'fast-check'
import { readSteamCycles } from '#workings/steam/read-steam-cycles.ts'
import type { SteamCycleReading } from '#workings/steam/reading.ts'
import { seededRandom } from '../support/seeded-random.ts'
import { type CycleShape, trueCycle } from '../support/simulated-cycle.ts'
import { type LogStyle, mapFor, plainStyle, type Row, sampleRows, writeLog } from '../support/simulated-log.ts'
import { simulatedProgram } from '../support/simulated-plan.ts'

const options = { seed: 20_261_125, numRuns: 40 }

const shapes: fc.Arbitrary<CycleShape> = fc.record({
  sterilisationC: fc.constant(134),
  holdSeconds: fc.oneof(fc.integer({ min: 90, max: 170 }), fc.integer({ min: 190, max: 260 })),
  loadDelays: fc.constantFrom([], [3, 6, 10], [4, 25]),
  riseK: fc.constantFrom(0.6, 0.8, 1.7, 3.6),
  riseSeconds: fc.constant(40),
  pressureOffsetKPa: fc.constantFrom(0, 0, 0, 30, -20),
  hotLoadK: fc.constant(0),
  dip: fc.constantFrom(null, null, { depthK: 4, seconds: 12 }),
  aboveK: fc.constant(null),
  pulseLowsKPa: fc.constantFrom([8, 8, 8], [8, 8]),
  dryingSeconds: fc.constantFrom(500, 300),
  idleSeconds: fc.constantFrom(60),
})
const styles: fc.Arbitrary<LogStyle> = fc.record({
  intervalSeconds: fc.constant(1),
  irregular: fc.constant(false),
  noiseK: fc.constant(0),
  stepK: fc.constant(0),
  delimiter: fc.constantFrom<LogStyle['delimiter'][]>(',', ';', '\t'),
  decimal: fc.constantFrom<LogStyle['decimal'][]>('.', ','),
  temperatureUnit: fc.constantFrom<LogStyle['temperatureUnit'][]>('C', 'F'),
  pressureUnit: fc.constantFrom<LogStyle['pressureUnit'][]>('kPa', 'bar', 'mbar', 'psi'),
  gauge: fc.boolean(),
  time: fc.constantFrom<LogStyle['time'][]>('seconds', 'clock', 'dated', 'iso'),
  startClock: fc.integer({ min: 0, max: 86_399 }),
  dressing: fc.constantFrom<LogStyle['dressing'][]>('plain', 'dressed'),
})

function rowsOf(shape: CycleShape): Row[] {
  return sampleRows(trueCycle(shape), plainStyle, { kind: 'none' }, seededRandom(1))
}
function read(rows: readonly Row[], style: LogStyle, loads: number): SteamCycleReading {
  const result = readSteamCycles({
    log: writeLog(rows, style, loads, false),
    program: simulatedProgram,
    map: mapFor(style, loads, false),
  })
  assert.ok(result.kind === 'read' && result.cycles.length === 1, JSON.stringify(result).slice(0, 300))
  const [only] = result.cycles
  assert.ok(only)
  return only
}
const near = (a: number | null, b: number | null, by: number) =>
  assert.ok(a === b || Math.abs((a ?? 1e9) - (b ?? -1e9)) <= by, `${a} ${b}`)
const results = ({ criteria }: SteamCycleReading) => criteria.map(({ id, result }) => `${id} ${result}`)

test('readSteamCycles gives the same reading in every delimiter, unit, time format and dressing', () => {
  fc.assert(
    fc.property(shapes, styles, (shape, style) => {
      const rows = rowsOf(shape)
      const loads = shape.loadDelays.length
      const plain = read(rows, plainStyle, loads)
      const other = read(rows, style, loads)
      assert.deepEqual(results(other), results(plain))
      assert.equal(other.verdict, plain.verdict)
      // Four decimals of a degree can move a crossing by one sample.
      near(other.holdingSeconds, plain.holdingSeconds, 1)
      near(other.maxC, plain.maxC, 0.002)
      near(other.maxSpreadK, plain.maxSpreadK, 0.05)
      near(other.fMinutes, plain.fMinutes, 0.05)
    }),
    options,
  )
})

test('readSteamCycles does not mind the order of the rows', () => {
  fc.assert(
    fc.property(shapes, fc.integer({ min: 1, max: 1e6 }), (shape, seed) => {
      const rows = rowsOf(shape)
      const random = seededRandom(seed)
      const mixed = rows
        .map((row) => ({ row, key: random.next() }))
        .sort((a, b) => a.key - b.key)
        .map(({ row }) => row)
      const { findings, ...reading } = read(mixed, plainStyle, shape.loadDelays.length)
      const { findings: _, ...plain } = read(rows, plainStyle, shape.loadDelays.length)
      assert.deepEqual(reading, plain)
      assert.ok(findings.some(({ rule }) => rule === 'out-of-order'))
    }),
    options,
  )
})

test('readSteamCycles does not mind idle time around the cycle', () => {
  fc.assert(
    fc.property(shapes, fc.integer({ min: 100, max: 8000 }), (shape, idleSeconds) => {
      const loads = shape.loadDelays.length
      const plain = read(rowsOf(shape), plainStyle, loads)
      const later = read(rowsOf({ ...shape, idleSeconds: 60 + idleSeconds }), plainStyle, loads)
      assert.deepEqual(results(later), results(plain))
      assert.equal(later.holdingSeconds, plain.holdingSeconds)
      assert.equal((later.plateau?.startSeconds ?? 0) - idleSeconds, plain.plateau?.startSeconds ?? 0)
      assert.deepEqual(later.pulses, plain.pulses)
    }),
    options,
  )
})

test('readSteamCycles never turns a verdict round when rows are lost in gaps of up to 5 s', () => {
  fc.assert(
    fc.property(shapes, fc.integer({ min: 1, max: 1e6 }), (shape, seed) => {
      const rows = rowsOf(shape)
      const random = seededRandom(seed)
      let lost = 0
      const kept = rows.filter(() => {
        if (lost === 0 && random.next() < 0.05) lost = random.whole(1, 4)
        else if (lost > 0) lost -= 1
        return lost === 0
      })
      const plain = read(rows, plainStyle, shape.loadDelays.length)
      const thinned = read(kept, plainStyle, shape.loadDelays.length)
      assert.ok(
        thinned.verdict === plain.verdict || thinned.verdict === 'notEvaluable',
        `${plain.verdict} became ${thinned.verdict}`,
      )
      near(thinned.holdingSeconds, plain.holdingSeconds, 10)
    }),
    options,
  )
})
