import assert from 'node:assert/strict'
import { test } from 'node:test'
import { instant, millis } from '../instant.ts'
import type { KnownOf } from '../known.ts'
import { policyFrom } from '../policy.ts'
import { at, knownAs, step } from '../rule-harness.ts'
import { exposuresOfCase, type Touched } from './investigation/exposures-of-case.ts'
import { chartPath } from './surveillance/chart-path.ts'
import { fitRisk } from './surveillance/fit-risk.ts'
import { gapsOf } from './surveillance/gaps.ts'
import { type CaseLine, caseLine } from './surveillance/line.ts'

const start = at('08:00')
const day = (number: number) => instant(millis(start) + number * 86_400_000)

function lineOf(number: number, infected: boolean, rest: Partial<CaseLine> = {}): CaseLine {
  const operation: KnownOf<'case'> = knownAs('case', `case:${number}`, {
    recorded: {
      ...step('09:30', {
        startedAt: day(number),
        endedAt: instant(millis(day(number)) + 3_600_000),
        woundClass: 'II' as const,
        surgeon: 'person:ann' as const,
        implant: null,
        antibiotic: null,
      }),
      at: day(number),
    },
  })
  const made = caseLine({
    cuts: new Map(),
    operation,
    wounds: [],
    policy: policyFrom(undefined),
    now: day(400),
    dayOf: (moment) => moment.slice(0, 10),
  })
  assert.ok(made !== null)
  const infection = infected
    ? {
        wound: 'wound:1' as const,
        depth: 'superficial' as const,
        eventAt: day(number + 5),
        onsetDays: 5,
        counted: true,
        organism: null,
        acidFast: 'notDone' as const,
      }
    : null
  return { ...made, infection, ...rest }
}

const round = knownAs('round', 'round:1', {
  set: 'set:lap',
  began: step('06:00', { because: 'use' as const, case: null }),
  soak: step('08:30', { solution: 'enzymatic', waterC: 20 }),
  wash: step('09:00', {
    id: 'wash:1' as const,
    how: {
      kind: 'manual' as const,
      detergent: 'x',
      takenApart: false,
      lumensBrushed: 'no' as const,
      lumensFlushed: 'yes' as const,
      finalRinse: 'tap' as const,
    },
  }),
  immersion: step('10:00', { id: 'immersion:1' as const, claim: 'disinfect' as const, decided: null }),
})

const touched: Touched = {
  rounds: new Map([[round.id, round]]),
  washes: new Map([['wash:1', knownAs('wash', 'wash:1', { outlets: ['outlet:sink'] })]]),
  loads: new Map(),
  immersions: new Map([['immersion:1', knownAs('immersion', 'immersion:1', { bath: 'bath:a' })]]),
  baths: new Map([
    [
      'bath:a',
      knownAs('bath', 'bath:a', { product: 'ortho-phthalaldehyde-0.55', activatedAt: day(-20), expiresAt: day(-6) }),
    ],
  ]),
  soakWithinMinutes: 60,
  longMinutes: 45,
}

test('exposures of a case: its operation, and each step of each round with what was not as it should be', () => {
  const found = exposuresOfCase(lineOf(0, false, { position: 3, theatre: 'T1' }), ['round:1'], touched)
  const named = found.map(({ type, id }) => `${type} ${id}`)
  for (const wanted of [
    'surgeon person:ann',
    'theatre T1',
    'condition notFirstOnList',
    'condition longOperation',
    'set set:lap',
    'condition lateSoak',
    'wash wash:1',
    'washedBy person:ann',
    'outlet outlet:sink',
    'condition notTakenApart',
    'condition lumenNotBrushed',
    'condition rinsedWithTapOrSoftened',
    'bath bath:a',
    'bathProduct ortho-phthalaldehyde-0.55',
    'condition bathNotTested',
    'condition bathTooOld',
  ])
    assert.ok(named.includes(wanted), `${wanted} among ${named.join(', ')}`)
  assert.equal(found.find(({ id }) => id === 'lateSoak')?.amount, 150)
  assert.equal(found.find(({ type }) => type === 'bath')?.amount, 20)
  assert.ok(!named.includes('condition notSoaked'))
  assert.equal(new Set(named).size, named.length)
})

const chart: KnownOf<'chart'> = knownAs('chart', 'chart:all', {
  set: step('07:00', {
    name: 'All',
    procedures: [],
    usualRate: 0.01,
    raisedRate: 0.03,
    falseAlarmYears: 5,
    operationsPerYear: 1000,
    headStart: false,
    riskAdjusted: false,
    why: 'the first chart',
  }),
})

test('a chart is designed from its wishes, alarms at its limit, and a restart answers the alarm', () => {
  const lines = Array.from({ length: 12 }, (_, index) => lineOf(index, index > 6 && index < 11))
  const path = chartPath(chart, lines)
  // Statistics of surveillance, design table: 1 % against 3 %, one false alarm in 5,000: h 3.558, 227 to a signal.
  assert.ok(path !== null && Math.abs(path.design.limit - 3.558) < 0.001 && Math.round(path.design.withRise) === 227)
  assert.deepEqual(
    path.points.flatMap((point, index) => (point.alarm ? [index] : [])),
    [10],
  )
  assert.equal(path.alarmSince, lines[10]?.at)
  const restarted = { ...chart, restarts: [{ ...step('08:00', { why: 'rinse water changed' }), at: day(11) }] }
  assert.equal(chartPath(restarted, lines)?.alarmSince, null)
  assert.equal(
    chartPath({ ...chart, restarts: [{ ...step('08:00', { why: 'earlier one' }), at: day(2) }] }, lines)?.alarmSince,
    lines[10]?.at,
  )
  assert.equal(chartPath(knownAs('chart', 'chart:all'), lines), null)
})

test('an alarm names the infections since the sum was at zero last, and those that follow without a zero', () => {
  const infected = new Set([0, 200, 201, 202, 203, 204])
  const lines = Array.from({ length: 210 }, (_, index) => lineOf(index, infected.has(index)))
  const path = chartPath(chart, lines)
  const first = path?.points.findIndex((point) => point.alarm)
  assert.equal(first, 203)
  // The lone infection of the first day was followed by a zero; the one after the alarm was not.
  assert.deepEqual(
    path?.alarmRun.map((each) => each.case),
    [200, 201, 202, 203, 204].map((index) => lines[index]?.case),
  )
  const restarted = { ...chart, restarts: [{ ...step('08:00', { why: 'looked into' }), at: day(209) }] }
  assert.deepEqual(chartPath(restarted, lines)?.alarmRun, [])
})

test('the limits of the distances: g and t chart from the distances themselves', () => {
  const infected = new Set([0, 50, 53, 100])
  const { g, t, gaps, upper } = gapsOf(
    Array.from({ length: 110 }, (_, index) => lineOf(index, infected.has(index))),
    0.02,
  )
  // 49, 2 and 46 operations: mean 97/3, mean + 3 sqrt(mean (mean + 1)).
  const mean = 97 / 3
  assert.ok(g !== null && Math.abs(g.cl - mean) < 1e-9)
  assert.ok(Math.abs(g.ucl - (mean + 3 * Math.sqrt(mean * (mean + 1)))) < 1e-9 && g.lcl === 0)
  // 50, 3 and 47 days to the power 1/3.6, mean and 2.66 mean moving ranges, back again.
  const y = [50, 3, 47].map((days) => days ** (1 / 3.6))
  const [a = 0, b = 0, c = 0] = y
  const centre = (a + b + c) / 3
  const range = (Math.abs(a - b) + Math.abs(b - c)) / 2
  assert.ok(t !== null && Math.abs(t.cl - centre ** 3.6) < 1e-9)
  assert.ok(Math.abs(t.ucl - (centre + 2.66 * range) ** 3.6) < 1e-6 && t.lcl === 0)
  assert.ok(gaps.every(({ soon }) => !soon))
  // (1 - 0.02)^262 is 0.00503, and one operation more is rarer than 1 in 200.
  assert.equal(upper, 263)
  assert.equal(gapsOf([], 0.02).g, null)
})

test('distances between infections count the operations that went well', () => {
  const infected = new Set([0, 50, 53])
  const { gaps, lower } = gapsOf(
    Array.from({ length: 60 }, (_, index) => lineOf(index, infected.has(index))),
    0.02,
  )
  assert.deepEqual(
    gaps.map(({ operations, days }) => [operations, days]),
    [
      [49, 50],
      [2, 3],
    ],
  )
  assert.equal(lower, null)
})

test('the unit’s own model: factors that go with infection weigh more, and forecasts add up to what was seen', () => {
  const lines = Array.from({ length: 200 }, (_, index) => {
    const high = index % 4 === 0
    return lineOf(index, high ? index % 20 === 0 : index % 50 === 1, { asa: high ? 3 : 1, minutes: index % 7 })
  })
  const fitted = fitRisk(lines)
  assert.ok(fitted !== null && fitted.infections === 14 && (fitted.coefficients.asa3OrMore ?? 0) > 1)
  const forecast = fitted.calibration.reduce((sum, group) => sum + group.forecast, 0)
  // The penalty of Firth draws forecasts a little towards a half: not below what was seen, and not far above.
  assert.ok(forecast > 13.9 && forecast < 17, String(forecast))
  assert.equal(fitRisk(lines.map((line) => ({ ...line, infection: null }))), null)
})
