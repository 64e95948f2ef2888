import assert from 'node:assert/strict'
import { test } from 'node:test'
import { readSteamCycles } from '#workings/steam/read-steam-cycles.ts'
import type { SteamCycleReading } from '#workings/steam/reading.ts'
import { steamCycleChart } from '#workings/steam/chart.ts'
import { seededRandom } from '../support/seeded-random.ts'
import { type CycleShape, trueCycle } from '../support/simulated-cycle.ts'
import {
  type LogStyle,
  mapFor,
  plainStyle,
  type Row,
  sampleRows,
  type SimulatedFault,
  writeLog,
} from '../support/simulated-log.ts'
import { simulatedProgram } from '../support/simulated-plan.ts'

const good: CycleShape = {
  sterilisationC: 134,
  holdSeconds: 215,
  loadDelays: [3, 6, 10],
  riseK: 0.8,
  riseSeconds: 15,
  pressureOffsetKPa: 0,
  hotLoadK: 0,
  dip: null,
  aboveK: null,
  pulseLowsKPa: [8, 8, 8],
  dryingSeconds: 500,
  idleSeconds: 60,
}
interface Trouble {
  readonly shape?: Partial<CycleShape>
  readonly style?: Partial<LogStyle>
  readonly fault?: SimulatedFault
  readonly change?: (rows: Row[]) => Row[]
  readonly program?: Partial<typeof simulatedProgram>
}

function textOf({ shape, style, fault, change = (rows) => rows }: Trouble): {
  log: string
  loads: number
  style: LogStyle
} {
  const cycle = trueCycle({ ...good, ...shape })
  const full = { ...plainStyle, ...style }
  const rows = change(sampleRows(cycle, full, fault ?? { kind: 'none' }, seededRandom(5)))
  return {
    log: writeLog(rows, full, cycle.loadsC.length, cycle.aboveC !== null),
    loads: cycle.loadsC.length,
    style: full,
  }
}
function readAll(trouble: Trouble): readonly SteamCycleReading[] {
  const { log, loads, style } = textOf(trouble)
  const program = { ...simulatedProgram, ...trouble.program }
  const result = readSteamCycles({ log, program, map: mapFor(style, loads, (trouble.shape?.aboveK ?? null) !== null) })
  assert.equal(result.kind, 'read')
  return result.kind === 'read' ? result.cycles : []
}
function read(trouble: Trouble): SteamCycleReading {
  const [only, ...others] = readAll(trouble)
  assert.ok(only)
  assert.equal(others.length, 0)
  return only
}
const rules = ({ findings }: SteamCycleReading) => findings.map(({ rule }) => rule)
const result = ({ criteria }: SteamCycleReading, id: string) =>
  criteria.find((criterion) => criterion.id === id)?.result
const { plateauStart, plateauEnd, endSeconds } = trueCycle(good)

test('readSteamCycles gives phases, pulses, drying and lethality of a good cycle', () => {
  const reading = read({})
  assert.equal(reading.verdict, 'met')
  assert.deepEqual(
    reading.phases.map(({ id }) => id),
    ['airRemoval', 'heating', 'equilibration', 'holding', 'exhaust', 'drying'],
  )
  assert.deepEqual(
    reading.pulses.map(({ lowKPa }) => lowKPa),
    [8, 8, 8],
  )
  assert.deepEqual(
    reading.pulses.slice(0, 2).map(({ highKPa }) => highKPa),
    [140, 140],
  )
  assert.equal(reading.holdingSeconds, 215)
  assert.equal(reading.equilibrationSeconds, 10)
  assert.deepEqual(reading.plateau, { startSeconds: plateauStart, endSeconds: plateauEnd + 1 })
  assert.ok((reading.airFraction ?? 1) < 1e-3)
  assert.ok(Math.abs((reading.dryingSeconds ?? 0) - 500) < 50)
  // 215 s near 134.8 °C are worth about 86 min on the 121 °C base; the climb and the fall add a little.
  assert.ok((reading.fMinutes ?? 0) > 84 && (reading.fMinutes ?? 0) < 100)
  assert.equal(reading.fReferenceC, 121)
})

test('a routine log without load sensors is met, with equilibration not evaluable', () => {
  const reading = read({ shape: { loadDelays: [] } })
  assert.equal(reading.verdict, 'met')
  assert.equal(result(reading, 'equilibration'), 'notEvaluable')
  assert.equal(reading.equilibrationSeconds, null)
})

const verdicts: readonly [string, Trouble, SteamCycleReading['verdict'], string][] = [
  ['a log that ends inside the holding time', { fault: { kind: 'truncated' } }, 'notEvaluable', 'truncated'],
  ['a log that ends before the drying does', { fault: { kind: 'truncatedLate' } }, 'notEvaluable', 'truncated-not'],
  [
    'a log that begins inside the holding time',
    { change: (rows) => rows.filter(({ seconds }) => seconds > plateauStart + 30) },
    'notEvaluable',
    'headless',
  ],
  [
    'a log that ends while heating',
    { change: (rows) => rows.filter(({ seconds }) => seconds < plateauStart - 10) },
    'notEvaluable',
    'truncated',
  ],
  [
    'a log without a plateau',
    { change: (rows) => rows.filter(({ seconds }) => seconds < 200) },
    'notEvaluable',
    'no-plateau',
  ],
  ['a gap of 45 s', { fault: { kind: 'longGap' } }, 'notEvaluable', 'gap'],
  ['gaps of a few seconds', { fault: { kind: 'shortGaps' } }, 'met', 'short-gaps'],
  ['duplicate rows', { fault: { kind: 'duplicates' } }, 'met', 'duplicate-rows'],
  ['rows out of order', { fault: { kind: 'shuffled' } }, 'met', 'out-of-order'],
  [
    'a stuck load',
    { fault: { kind: 'stuck', channel: 3, from: plateauEnd - 60, to: endSeconds } },
    'notEvaluable',
    'stuck-sensor',
  ],
  [
    'a stuck reference',
    { fault: { kind: 'stuck', channel: 1, from: plateauEnd - 60, to: endSeconds } },
    'notEvaluable',
    'stuck-sensor',
  ],
  [
    'a stuck pressure',
    { fault: { kind: 'stuck', channel: 0, from: plateauEnd - 60, to: endSeconds } },
    'notEvaluable',
    'stuck-sensor',
  ],
  [
    'a reference alone and stuck',
    { shape: { loadDelays: [] }, fault: { kind: 'stuck', channel: 1, from: plateauEnd - 60, to: endSeconds } },
    'notEvaluable',
    'stuck-sensor',
  ],
  [
    'a sensor stuck within a noisy plateau',
    { style: { noiseK: 0.05 }, fault: { kind: 'stuck', channel: 2, from: plateauEnd - 100, to: plateauEnd - 20 } },
    'notEvaluable',
    'stuck-sensor',
  ],
  [
    'a sensor that stuck before and let go',
    { fault: { kind: 'stuck', channel: 2, from: plateauStart - 200, to: plateauStart - 80 } },
    'met',
    'stuck-sensor',
  ],
  ['a dead load at 0', { fault: { kind: 'dead', channel: 2, value: 0 } }, 'notEvaluable', 'dead-sensor'],
  ['a dead load at 850', { fault: { kind: 'dead', channel: 2, value: 850 } }, 'notEvaluable', 'impossible-readings'],
  ['a blank reference', { fault: { kind: 'dead', channel: 1, value: null } }, 'notEvaluable', 'dead-sensor'],
  ['a dead pressure at 9999', { fault: { kind: 'dead', channel: 0, value: 9999 } }, 'notEvaluable', 'dead-sensor'],
  [
    'half a day of idle around',
    { shape: { idleSeconds: 43_200 }, style: { intervalSeconds: 5 } },
    'met',
    'slow-sampling',
  ],
  ['a dip', { shape: { dip: { depthK: 2, seconds: 10 } } }, 'notMet', 'dip'],
  ['a dip between two long runs', { shape: { dip: { depthK: 2, seconds: 10 }, holdSeconds: 460 } }, 'met', 'dip'],
  ['steps of 1 °C without load sensors', { shape: { loadDelays: [] }, style: { stepK: 1 } }, 'met', 'coarse-steps'],
  [
    'a short plateau in steps of 1 °C',
    { shape: { loadDelays: [], holdSeconds: 160 }, style: { stepK: 1 } },
    'notMet',
    'coarse-steps',
  ],
  [
    'a plateau within a step of the limit',
    { shape: { loadDelays: [], riseK: 0.3 }, style: { stepK: 1 } },
    'notEvaluable',
    'coarse-steps',
  ],
]
for (const [name, trouble, verdict, rule] of verdicts)
  test(`readSteamCycles survives ${name}: ${verdict}`, () => {
    const reading = read(trouble)
    assert.equal(
      reading.verdict,
      verdict,
      JSON.stringify(reading.criteria.map(({ id, result, says }) => [id, result, says])),
    )
    if (!rule.endsWith('-not')) assert.ok(rules(reading).includes(rule), rules(reading).join())
  })

test('a broken criterion decides even when another is not evaluable', () => {
  const reading = read({ shape: { riseK: 3.6, riseSeconds: 40 }, fault: { kind: 'longGap' } })
  assert.equal(result(reading, 'hold'), 'notEvaluable')
  assert.equal(result(reading, 'band'), 'notMet')
  assert.equal(reading.verdict, 'notMet')
})

test('a log without pressure is not evaluable, or not met when the holding time is broken', () => {
  const without = (trouble: Trouble) => {
    const { log, loads, style } = textOf(trouble)
    const { pressure: _, ...map } = mapFor(style, loads, false)
    const read = readSteamCycles({ log, program: 'porous-134', map })
    return read.kind === 'read' ? read.cycles[0]?.verdict : read.problem.current
  }
  assert.equal(without({}), 'notEvaluable')
  assert.equal(without({ shape: { holdSeconds: 120 } }), 'notMet')
})

test('a few seconds in which the pressure leads the sensors are taken off the holding time, and said', () => {
  const lead = (seconds: number) => (rows: Row[]) =>
    rows.map((row, index) => ({
      ...row,
      readings: [rows[Math.min(rows.length - 1, index + seconds)]?.readings[0] ?? null, ...row.readings.slice(1)],
    }))
  const reading = read({ change: lead(4), program: {} })
  assert.equal(reading.verdict, 'met')
  assert.ok(rules(reading).includes('pressure-lag'))
  assert.ok((reading.holdingSeconds ?? 0) < 215 && (reading.holdingSeconds ?? 0) > 208)
  assert.equal(read({ change: lead(20) }).verdict, 'notMet')
})

test('several cycles come as a list, and one of them by its number', () => {
  const two = (rows: Row[]) => [...rows, ...rows.map((row) => ({ ...row, seconds: row.seconds + 4000 }))]
  assert.deepEqual(
    readAll({ change: two }).map(({ cycle, cycles, verdict }) => [cycle, cycles, verdict]),
    [
      [1, 2, 'met'],
      [2, 2, 'met'],
    ],
  )
  const { log, loads, style } = textOf({ change: two })
  const second = readSteamCycles({ log, program: simulatedProgram, map: mapFor(style, loads, false), cycle: 2 })
  assert.equal(second.kind === 'read' && second.cycles[0]?.plateau?.startSeconds, plateauStart + 4000)
  const third = readSteamCycles({ log, program: simulatedProgram, map: mapFor(style, loads, false), cycle: 3 })
  assert.equal(third.kind === 'unusable' && third.problem.field, 'cycle')
})

test('an unknown programme is refused with the known ones', () => {
  const read = readSteamCycles({ log: 't;p;r\n1;2;3', program: 'porous-1' })
  assert.ok(read.kind === 'unusable' && read.problem.wanted.includes('porous-134'))
})

test('steamCycleChart thins the series and keeps their extremes', () => {
  const { log, loads, style } = textOf({})
  const chart = steamCycleChart({ log, program: simulatedProgram, map: mapFor(style, loads, false) }, 300)
  assert.ok(chart.kind === 'chart')
  if (chart.kind !== 'chart') return
  assert.ok(chart.seconds.length <= 300 && chart.seconds.length > 150)
  const pressure = chart.series.find(({ role }) => role === 'pressure')?.values ?? []
  assert.equal(Math.min(...pressure.map((value) => value ?? 999)), 6)
  assert.deepEqual(
    chart.series.map(({ role }) => role),
    ['pressure', 'reference', 'load', 'load', 'load', 'saturation', 'lethality'],
  )
})

test('a log that only rises has no air-removal pulse', () => {
  const rising = (rows: Row[]) => rows.filter(({ seconds }) => seconds >= plateauStart - 239)
  const { criteria, pulses } = read({ change: rising })
  // The log begins evacuated, so one low is there; the pulses before it may be missing.
  assert.equal(pulses.length, 1)
  assert.equal(criteria.find(({ id }) => id === 'pulses')?.result, 'notEvaluable')
})
