import assert from 'node:assert/strict'
import { test } from 'node:test'
import { caseStep } from '../deciding/case-facts.ts'
import { casePolicy } from '../deciding/case-policy.ts'
import { type Instant, instant, millis } from '../instant.ts'
import { dayIn } from '../local-day.ts'
import { at, knownAs, step } from '../rule-harness.ts'
import { dueTests, isPressing } from './due-tests.ts'
import type { LoadKnown } from './load-fold.ts'
import type { MachineKnown } from './machine-fold.ts'
import { repairBegins } from './major-repair.ts'
import { qualificationOf } from './qualification-of.ts'

const now = at('12:00')
const ago = (hours: number): Instant => instant(millis(now) - hours * 3_600_000)
const context = { now, policy: casePolicy({}), dayOf: (moment: Instant) => dayIn('UTC', moment) }

function ran(
  name: string,
  hours: number,
  over: Partial<LoadKnown> & { readonly outcome?: 'negative' | 'growth' } = {},
) {
  const { outcome, ...rest } = over
  const read = outcome === 'growth' ? ('growth' as const) : ('noGrowth' as const)
  const control = { lot: 'b1', result: 'growth' as const }
  return knownAs('load', `load:${name}`, {
    program: 'p',
    builtAt: ago(hours),
    challenge: { biologicalLot: 'b1' },
    biological:
      outcome === undefined ? [] : [caseStep(ago(hours), { lot: 'b1', result: read, control, incubatedHours: 48 })],
    ...rest,
  })
}

const states = (machine: MachineKnown, loads: readonly LoadKnown[]) =>
  Object.fromEntries(dueTests(machine, loads, context).map(({ test: name, state }) => [name, state]))

test('dueTests: steam with a vacuum has its leak, air-removal and weekly biological test', () => {
  const bare = knownAs('machine', 'machine:s', { programs: ['p'] })
  assert.deepEqual(states(bare, []), { leak: 'overdue', airRemoval: 'due', biological: 'overdue' })
  const tested = knownAs('machine', 'machine:s', {
    programs: ['p'],
    leakTest: { ...caseStep(ago(6.5 * 24), {}), startKPa: 7, endKPa: 7.1, seconds: 600 } as never,
    airRemovalTests: [caseStep(ago(4), { result: 'passed' as const })],
  })
  const result = [ran('1', 8 * 24, { outcome: 'negative' })]
  assert.deepEqual(states(tested, result), { leak: 'due', airRemoval: 'done', biological: 'overdue' })
  assert.equal(states(tested, [ran('1', 7 * 24, { outcome: 'negative' })])['biological'], 'due')
  assert.equal(states(tested, [ran('1', 5 * 24, { outcome: 'negative' })])['biological'], 'done')
})

test('dueTests: a failure of today presses, and an indicator not read yet waits with its control', () => {
  const machine = knownAs('machine', 'machine:s', {
    programs: ['p'],
    airRemovalTests: [caseStep(ago(4), { result: 'failed' as const })],
  })
  const due = dueTests(machine, [ran('1', 2)], context)
  assert.deepEqual(
    due.map(({ test: name, state, lot }) => [name, state, lot]),
    [
      ['leak', 'overdue', null],
      ['airRemoval', 'overdue', null],
      ['biological', 'waits', null],
      ['control', 'due', 'b1'],
    ],
  )
  assert.deepEqual(due.filter(isPressing).length, 3)
})

test('dueTests: by method', () => {
  const machine = (type: MachineKnown['type']) =>
    knownAs('machine', 'machine:x', { type, airRemoval: 'none', programs: ['p'] })
  const yesterday = [ran('1', 30, { outcome: 'negative' })]
  assert.deepEqual(states(machine('ethyleneOxideSteriliser'), yesterday), { biological: 'eachLoad' })
  assert.deepEqual(states(machine('hydrogenPeroxideSteriliser'), yesterday), { biological: 'overdue' })
  assert.deepEqual(states(machine('dryHeatSteriliser'), yesterday), { biological: 'done' })
  assert.deepEqual(states(machine('washer'), yesterday), {})
})

test('qualificationOf: never, proven by three of each program, anew after a major repair', () => {
  const machine = knownAs('machine', 'machine:s', { programs: ['p', 'q'], airRemovalPasses: 3 })
  const state = (over: Partial<MachineKnown>, loads: readonly LoadKnown[]) =>
    qualificationOf({ ...machine, ...over }, loads, context)
  const row = (name: string, program: string, outcomes: readonly ('negative' | 'growth')[]) =>
    outcomes.map((outcome, index) =>
      ran(`${name}${index}`, 100 - index, { outcome, program, purpose: 'qualification' }),
    )
  assert.equal(state({}, [])?.state, 'never')
  const both = [...row('p', 'p', ['negative', 'negative', 'negative']), ...row('q', 'q', ['negative', 'negative'])]
  assert.partialDeepStrictEqual(state({}, both), { state: 'qualified', programsOpen: ['q'] })
  assert.equal(state({}, row('p', 'p', ['negative', 'growth', 'negative', 'negative']))?.state, 'never')
  assert.partialDeepStrictEqual(state({ majorRepairs: [repairBegins(ago(10))] }, both), {
    state: 'needsProof',
    because: 'majorRepair',
    biological: { good: 0, needed: 3 },
    airRemoval: { passed: 3, needed: 3 },
  })
  // Three negative results of each cycle type: q has two.
  assert.partialDeepStrictEqual(state({ majorRepairs: [repairBegins(ago(200))] }, both), {
    state: 'needsProof',
    programsOut: ['q'],
  })
  const all = [...both, ...row('again', 'q', ['negative'])]
  assert.equal(state({ majorRepairs: [repairBegins(ago(200))] }, all)?.state, 'qualified')
  const out = { state: 'withdrawn', since: ago(1), why: 'seal' } as const
  assert.partialDeepStrictEqual(state({ service: out }, both), { state: 'needsProof', because: 'outOfService' })
  const returned = { state: 'inService', since: ago(1), why: 'proven' } as const
  // Back in service frees no cycle type that was not proven itself (CDC 2008: three in a row for each).
  const unproven = state({ service: returned, majorRepairs: [repairBegins(ago(200))] }, both)
  assert.partialDeepStrictEqual(unproven, { state: 'needsProof', programsOut: ['q'] })
  assert.equal(state({ service: returned, majorRepairs: [repairBegins(ago(200))] }, all)?.state, 'qualified')
})

test('qualificationOf: calibration and service with their days, and what they put out of use', () => {
  const machine = knownAs('machine', 'machine:s', { programs: ['p', 'q'] })
  const done = (found: 'withinTolerance' | 'outOfTolerance', nextDueAt: Instant) => ({
    ...step('08:00', { what: 'Sensors', found, nextDueAt }),
  })
  const care = (over: Partial<MachineKnown>) =>
    qualificationOf({ ...machine, ...over }, [], context)?.care.map(({ what, state, dueBy, putsOut }) => ({
      what,
      state,
      dueBy,
      putsOut,
    }))
  const soon = instant(millis(context.now) + 86_400_000)
  const none = { what: 'service', state: 'notOnRecord', dueBy: null, putsOut: 'nothing' }
  const calibration = (state: string, dueBy: Instant | null, putsOut = 'nothing') => [
    { what: 'calibration', state, dueBy, putsOut },
    none,
  ]
  assert.deepEqual(care({}), calibration('notOnRecord', null))
  assert.deepEqual(care({ calibration: done('withinTolerance', soon) }), calibration('inOrder', soon))
  assert.deepEqual(care({ calibration: done('withinTolerance', ago(2)) }), calibration('overdue', ago(2)))
  const wrong = { calibration: done('outOfTolerance', soon), lastGoodCalibration: ago(300) }
  assert.deepEqual(care(wrong), calibration('outOfTolerance', soon, 'goods'))
  assert.equal(qualificationOf({ ...machine, ...wrong }, [], context)?.care[0]?.inQuestionSince, ago(300))
  const serviced = step('08:00', { what: 'Yearly', nextDueAt: ago(1) })
  assert.equal(qualificationOf({ ...machine, serviced }, [], context)?.care[1]?.state, 'overdue')
  const repaired = qualificationOf({ ...machine, majorRepairs: [repairBegins(ago(10))] }, [], context)
  assert.deepEqual(repaired?.programsOut, ['p', 'q'])
  assert.deepEqual(qualificationOf(machine, [], context)?.programsOut, [])
})
