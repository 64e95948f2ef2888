import assert from 'node:assert/strict'
import { test } from 'node:test'
import { checkPlan } from './check-plan.ts'
import { PlanInstance } from './instance.ts'
import type { PlanSchedule, PlanUse } from './plan-schedule.ts'

const day = PlanInstance.parse({
  horizon: 960,
  theatres: [
    { id: 'T1', open: 30, close: 360, hardClose: 400 },
    { id: 'T2', open: 30, close: 360, hardClose: 400 },
  ],
  turnover: { standard: 15, dirty: 30, infectious: 45 },
  surgeonGap: 5,
  cases: ['C1', 'C2', 'C3'].map((id, index) => ({
    id,
    dur: 60,
    wound: 'clean',
    implant: false,
    infectious: false,
    surgeon: index === 2 ? 'S2' : 'S1',
    theatres: index === 2 ? ['T2'] : ['T1'],
    needs: { LAP: 1 },
    ...(index === 1 ? { earliest: 100, latest: 200 } : {}),
  })),
  setTypes: [{ id: 'LAP', units: 2, size: 2, lead: 10, routes: ['steam'], avail: [0, 0] }],
  routes: {
    steam: [
      { name: 'pack', kind: 'staff', pool: 'bench', dur: 15 },
      { name: 'steam', kind: 'batch', pool: 'steam' },
    ],
    other: [{ name: 'rest', kind: 'delay', dur: 5 }],
  },
  pools: [
    { id: 'bench', kind: 'staff', count: 1, from: 0, to: 300 },
    { id: 'steam', kind: 'batch', count: 1, cap: 3, dur: 60, from: 0, to: 300 },
  ],
})
const pack = { name: 'pack', start: 90, end: 105, pool: 'bench', machine: 0 }
const steam = { name: 'steam', start: 105, end: 165, pool: 'steam', machine: 0 }
const first = { case: 'C1', type: 'LAP', unit: 0, job: { route: 'steam', steps: [pack, steam], ready: 165 } }
const third = { case: 'C3', type: 'LAP', unit: 1 }
const sound: PlanSchedule = {
  cases: {
    C1: { theatre: 'T1', start: 30 },
    C2: { theatre: 'T1', start: 175 },
    C3: { theatre: 'T2', start: 30 },
  },
  uses: [first, { case: 'C2', type: 'LAP', unit: 0 }, third],
}
const placed = (id: string, theatre: string, start: number): PlanSchedule => ({
  ...sound,
  cases: { ...sound.cases, [id]: { theatre, start } },
})
const using = (...uses: readonly PlanUse[]): PlanSchedule => ({ ...sound, uses })
const [, second] = sound.uses
const withJob = (steps: readonly (typeof pack)[], ready: number, route = 'steam'): PlanSchedule =>
  using({ ...first, job: { route, steps, ready } }, ...(second === undefined ? [] : [second]), third)

test('the checker finds nothing in a sound plan', () => {
  assert.deepEqual(checkPlan(day, sound), [])
})

const { C1: _, ...withoutFirst } = sound.cases
const breaches: readonly (readonly [string, PlanSchedule, RegExp])[] = [
  ['a case that is not placed', { ...sound, cases: withoutFirst }, /C1 is not on the list/],
  ['a theatre that is not allowed', placed('C1', 'T2', 30), /C1 may not be in T2/],
  ['a theatre that is not there', placed('C1', 'T9', 30), /C1 may not be in T9/],
  ['before opening', placed('C3', 'T2', 20), /C3 lies outside the hours of T2/],
  ['past the hard close', placed('C3', 'T2', 341), /C3 lies outside the hours of T2/],
  ['before the earliest start', placed('C2', 'T1', 99), /C2 starts before its earliest/],
  ['after the latest start', placed('C2', 'T1', 201), /C2 starts after its latest/],
  ['no whole minute', placed('C3', 'T2', 30.5), /C3 starts at no whole minute/],
  ['no turnover', placed('C2', 'T1', 104), /C1 and C2 are too close/],
  ['one surgeon in two places', placed('C2', 'T1', 94), /S1 is in C1 and C2 at once/],
  ['a set that is missing', using(first, third), /C2 has 0 of 1 LAP/],
  ['a set too late', placed('C2', 'T1', 174), /LAP 0 is not there in time for C2/],
  [
    'a set that is used again unsterile',
    using({ case: 'C1', type: 'LAP', unit: 0 }, ...sound.uses.slice(1)),
    /serves again after C1/,
  ],
  [
    'a unit that is not there',
    using(first, ...sound.uses.slice(1, 2), { ...third, unit: 2 }),
    /a unit of LAP is used that is not there/,
  ],
  [
    'a way that is not allowed',
    withJob([{ ...pack, name: 'rest', end: 95 }], 95, 'other'),
    /takes a way that it may not/,
  ],
  ['a step left out', withJob([pack], 105), /leaves out a step/],
  ['steps in another order', withJob([steam, pack], 165), /takes its steps in another order/],
  [
    'a step before the one before it ends',
    withJob([pack, { ...steam, start: 104, end: 164 }], 165),
    /steam begins before/,
  ],
  ['a step before the case has ended', withJob([{ ...pack, start: 89, end: 104 }, steam], 165), /pack begins before/],
  ['a step cut short', withJob([{ ...pack, end: 104 }, steam], 165), /pack does not take its 15 minutes/],
  ['a step at another pool', withJob([{ ...pack, pool: 'steam' }, steam], 165), /pack is not at bench/],
  ['ready too soon', withJob([pack, steam], 164), /said to be ready before/],
  ['a machine that is not there', withJob([pack, { ...steam, machine: 1 }], 165), /steam has no machine 1/],
]
for (const [name, schedule, says] of breaches)
  test(`the checker finds ${name}`, () => {
    const broken = checkPlan(day, schedule)
    assert.ok(
      broken.some((each) => says.test(each)),
      broken.join('; '),
    )
  })

test('the checker finds a pool outside its hours, a crowded bench, a machine that holds too much or runs twice', () => {
  const also = (start: number, from: number): PlanUse => ({
    ...third,
    job: {
      route: 'steam',
      steps: [
        { ...pack, start, end: start + 15 },
        { ...steam, start: from, end: from + 60 },
      ],
      ready: from + 60,
    },
  })
  const rows = [
    [also(105, 241), /steam lies outside the hours of steam/],
    [also(286, 301), /pack lies outside the hours of bench/],
    [also(100, 165), /more than 1 at bench/],
    [also(90, 105), /steam 0 holds more than 3/],
    [also(105, 120), /steam 0 runs twice/],
  ] as const
  for (const [use, says] of rows)
    assert.match(checkPlan(day, using(first, ...sound.uses.slice(1, 2), use)).join('; '), says)
})
