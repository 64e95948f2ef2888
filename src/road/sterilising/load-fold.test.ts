import assert from 'node:assert/strict'
import { test } from 'node:test'
import { casePolicy } from '../deciding/case-policy.ts'
import { policyFrom } from '../policy.ts'
import { at, entered, findingsOf, knownAs, step } from '../rule-harness.ts'
import { choicesOf } from '../tracing/recall-choices.ts'
import { isGood } from '../tracing/recall-window.ts'
import { subjectKey } from '../subject.ts'
import { noLotKnown, type WantedIncubation } from './incubation.ts'
import { biologicalOutcome, isReadTooEarly, loadStanding } from './load-fold.ts'
import { qualificationOf } from './qualification-of.ts'
import { machineReturnedProven } from './rules/machine-returned-proven.ts'
import { releaseBiologicalValid } from './rules/release-biological-valid.ts'
import { releaseImplantWaits } from './rules/release-implant-waits.ts'
import { releaseWithBiological } from './rules/release-with-biological.ts'
import { wantedIncubation } from './wanted-incubation.ts'

/* What an indicator proves by how long it was incubated. The hours by method are those of the policy defaults. */

type Growth = 'growth' | 'noGrowth'

const read = (
  incubatedHours: number,
  over: { result?: Growth; control?: Growth | 'otherLot' | 'none'; makersHours?: number } = {},
) => {
  const { result = 'noGrowth', control = 'growth', makersHours } = over
  return step('11:00', {
    lot: 'b1',
    result,
    control:
      control === 'none'
        ? null
        : control === 'otherLot'
          ? { lot: 'b2', result: 'growth' as const }
          : { lot: 'b1', result: control },
    incubatedHours,
    ...(makersHours === undefined ? {} : { makersHours, fromLot: `lot:${makersHours}` as const }),
  })
}

/** The method wants these hours; the lot named `lot:3` wants three. */
const wantedOf = (hours: number): WantedIncubation => ({
  hours,
  fromC: 55,
  toC: 60,
  lotOf: (lot) => ({ incubation: { hours: Number(subjectKey(lot)) } }),
})

test('biologicalOutcome: no growth by its hours and its control; growth at any hour', () => {
  const table: readonly (readonly [string, ReturnType<typeof read>[], number, string])[] = [
    ['nothing read', [], 24, 'notRead'],
    ['whole time', [read(24)], 24, 'negative'],
    ['read early', [read(23.5)], 24, 'invalid'],
    ['24 h where 48 are wanted', [read(24)], 48, 'invalid'],
    ['rapid, in the time of its maker', [read(3, { makersHours: 3 })], 24, 'negative'],
    ['rapid, before the time of its maker', [read(1, { makersHours: 3 })], 24, 'invalid'],
    ['a maker that asks for more than the method', [read(24, { makersHours: 48 })], 24, 'invalid'],
    ['read early, then again', [read(4), read(24)], 24, 'negative'],
    ['the control grew only in the early reading', [read(4), read(24, { control: 'noGrowth' })], 24, 'invalid'],
    ['the late reading has no control', [read(4), read(24, { control: 'none' })], 24, 'invalid'],
    ['a control of another lot', [read(24, { control: 'otherLot' })], 24, 'invalid'],
    ['growth after an hour', [read(1, { result: 'growth', control: 'none' })], 24, 'positive'],
    ['growth after no growth', [read(24), read(48, { result: 'growth' })], 24, 'positive'],
  ]
  for (const [name, biological, wanted, outcome] of table) {
    assert.equal(biologicalOutcome({ biological }, wantedOf(wanted)), outcome, name)
  }
  assert.equal(isReadTooEarly({ biological: [read(4)] }, wantedOf(24)), true)
  assert.equal(isReadTooEarly({ biological: [read(24, { control: 'none' })] }, wantedOf(24)), false)
  assert.equal(isReadTooEarly({ biological: [read(1, { result: 'growth' })] }, wantedOf(24)), false)
  assert.equal(loadStanding(knownAs('load', 'load:1', { biological: [read(1, { result: 'growth' })] })), 'failed')
})

const gas = knownAs('machine', 'machine:gas', { type: 'ethyleneOxideSteriliser', airRemoval: 'none', programs: ['p'] })
const steam = knownAs('machine', 'machine:s', { airRemoval: 'gravity', programs: ['p'] })

test('wantedIncubation: by the method, and as the unit has changed it', () => {
  const policy = policyFrom(undefined)
  const hours = (machine: typeof gas | undefined, by = policy) => wantedIncubation(machine, by, noLotKnown).hours
  assert.equal(hours(steam), 24)
  assert.equal(hours(undefined), 24)
  assert.equal(hours(gas), 48)
  assert.equal(hours(gas, casePolicy({ 'incubation-hours-ethylene-oxide': 72 })), 72)
})

test('an indicator read early releases nothing, proves no steriliser and is no good result before a recall', () => {
  const packs = [{ round: 'round:r' as const, outcome: 'released' as const }]
  const release = entered('load-decided', { load: 'load:l', packs })
  const pack = knownAs('round', 'round:r', {
    sealed: step('08:00', { wrap: 'wrap', insideIndicator: null, outsideIndicator: null, counted: [], implant: true }),
  })
  const loadOn = (machine: typeof gas, hours: number) =>
    knownAs('load', 'load:l', { machine: machine.id, rounds: ['round:r'], program: 'p', biological: [read(hours)] })
  const weights = (rule: typeof releaseWithBiological, machine: typeof gas, hours: number) =>
    findingsOf(rule, { known: [machine, loadOn(machine, hours), pack] }, release).map((each) => each.weight)
  assert.deepEqual(weights(releaseWithBiological, gas, 24), ['stop'])
  assert.deepEqual(weights(releaseWithBiological, gas, 48), [])
  // An implant waits by the rule of the waiting, which an emergency may set aside.
  assert.deepEqual(weights(releaseBiologicalValid, steam, 4), ['note'])
  assert.deepEqual(weights(releaseImplantWaits, steam, 4), ['stop'])
  assert.deepEqual(weights(releaseBiologicalValid, steam, 24), [])

  const policy = policyFrom(undefined)
  const three = (hours: number) =>
    [1, 2, 3].map(() => ({ ...loadOn(gas, hours), purpose: 'qualification' as const, builtAt: release.happenedAt }))
  const out = { ...gas, service: { state: 'withdrawn' as const, since: release.happenedAt, why: 'growth' } }
  const back = entered('machine-returned', { machine: gas.id, why: 'proven' })
  const row = (hours: number) =>
    findingsOf(machineReturnedProven, { known: [out], loadsSinceStop: three(hours) }, back)[0]?.measured
  assert.equal(row(24), '0 in a row')
  assert.equal(row(48), undefined)
  assert.equal(qualificationOf(gas, three(24), { policy, now: at('12:00') })?.state, 'never')
  assert.equal(qualificationOf(gas, three(48), { policy, now: at('12:00') })?.state, 'qualified')
  assert.equal(isGood(loadOn(gas, 24), choicesOf(policy, gas)), false)
  assert.equal(isGood(loadOn(gas, 48), choicesOf(policy, gas)), true)
})
