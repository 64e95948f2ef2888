import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { Bodies } from '../kinds.ts'
import { at, entered, findingsOf, knownAs, step } from '../rule-harness.ts'
import { airRemovalOnDynamic } from './rules/air-removal-on-dynamic.ts'
import { airRemovalPassed } from './rules/air-removal-passed.ts'
import { biologicalControlGrew } from './rules/biological-control-grew.ts'
import { biologicalGrew } from './rules/biological-grew.ts'
import { biologicalIncubated } from './rules/biological-incubated.ts'
import { biologicalTestDue } from './rules/biological-test-due.ts'
import { chemicalPassed } from './rules/chemical-passed.ts'
import { cycleMet } from './rules/cycle-met.ts'
import { cycleOfItsLoad } from './rules/cycle-of-its-load.ts'
import { leakTestDue } from './rules/leak-test-due.ts'
import { leakTestPassed } from './rules/leak-test-passed.ts'
import { loadAfterAirRemovalTest } from './rules/load-after-air-removal-test.ts'
import { loadImplantWithBiological } from './rules/load-implant-with-biological.ts'
import { loadOfFreshPacks } from './rules/load-of-fresh-packs.ts'
import { loadOfSealedPacks } from './rules/load-of-sealed-packs.ts'
import { loadOnWorkingMachine } from './rules/load-on-working-machine.ts'
import { loadProgramKnown } from './rules/load-program-known.ts'
import { machineReturnedProven } from './rules/machine-returned-proven.ts'
import { repairNeedsProof } from './rules/repair-needs-proof.ts'

const machine = knownAs('machine', 'machine:s', {
  name: 'Steriliser 1',
  programs: ['134 wrapped'],
  airRemovalTests: [{ at: at('07:00'), result: 'passed', entry: entered('entry-withdrawn', { why: 'xxxxx' }).id }],
})
const sealed = step<Omit<Bodies['pack-sealed'], 'round'>>('11:00', {
  wrap: 'wrap',
  insideIndicator: null,
  outsideIndicator: null,
  counted: [],
  implant: false,
})
const pack = knownAs('round', 'round:a', { sealed })
const build = (body: Partial<Bodies['load-built']> = {}, time = '12:00') =>
  entered(
    'load-built',
    { load: 'load:1', machine: 'machine:s', program: '134 wrapped', purpose: 'goods', rounds: ['round:a'], ...body },
    { at: at(time) },
  )
const known = [machine, pack]

test('a load that is as it should be meets no finding', () => {
  const given = { known, lastBiological: at('01:00') }
  for (const rule of [loadOnWorkingMachine, loadProgramKnown, loadAfterAirRemovalTest, loadOfSealedPacks]) {
    assert.deepEqual(findingsOf(rule, given, build()), [], rule.id)
  }
  for (const rule of [loadOfFreshPacks, loadImplantWithBiological, biologicalTestDue]) {
    assert.deepEqual(findingsOf(rule, given, build()), [], rule.id)
  }
})

test('load-on-working-machine alarms out of service, an open recall, and a washer', () => {
  const out = { ...machine, service: { state: 'withdrawn' as const, since: at('08:00'), why: 'growth' } }
  assert.match(findingsOf(loadOnWorkingMachine, { known: [out] }, build())[0]?.says ?? '', /out of service \(growth\)/)
  assert.deepEqual(findingsOf(loadOnWorkingMachine, { known: [out] }, build({ purpose: 'retest' })), [])
  assert.equal(findingsOf(loadOnWorkingMachine, { known, recallsOfMachine: ['recall:1'] }, build()).length, 1)
  const washer = { ...machine, type: 'washer' as const }
  assert.equal(findingsOf(loadOnWorkingMachine, { known: [washer] }, build({ purpose: 'warmUp' })).length, 1)
})

test('load-after-air-removal-test: not done, failed, passed again, gravity', () => {
  const tests = (...results: readonly ('passed' | 'failed')[]) => ({
    ...machine,
    airRemovalTests: results.map((result, index) => ({
      at: at(`07:0${index}`),
      result,
      entry: entered('entry-withdrawn', { why: 'xxxxx' }).id,
    })),
  })
  const says = (state: { readonly id: 'machine:s' }) =>
    findingsOf(loadAfterAirRemovalTest, { known: [state] }, build())[0]?.says ?? ''
  assert.match(says(tests() as never), /not recorded/)
  assert.match(says(tests('failed') as never), /failed/)
  assert.equal(says(tests('failed', 'passed') as never), '')
  assert.equal(says({ ...tests(), airRemoval: 'gravity' } as never), '')
})

test('load-of-sealed-packs and load-of-fresh-packs name the pack', () => {
  assert.equal(findingsOf(loadOfSealedPacks, { known: [knownAs('round', 'round:a')] }, build()).length, 1)
  const wet = { ...pack, damage: step('11:30', { condition: 'wet' as const }) }
  assert.match(findingsOf(loadOfFreshPacks, { known: [wet] }, build())[0]?.says ?? '', /damaged or wet/)
  const elsewhere = { ...pack, load: step('11:30', { id: 'load:9' as const }) }
  assert.match(findingsOf(loadOfFreshPacks, { known: [elsewhere] }, build())[0]?.says ?? '', /another load/)
  // Ready from a bath, which a recall then took back: no load holds it.
  const decided = step('11:30', { outcome: 'readyForUse' as const })
  const treated = knownAs('round', 'round:a', {
    immersion: step('11:00', { id: 'immersion:1' as const, claim: 'disinfect' as const, decided }),
    accounted: [step('11:40', { recall: 'recall:b' as const, outcome: 'pulledFromShelf' as const })],
  })
  assert.match(
    findingsOf(loadOfFreshPacks, { known: [treated] }, build())[0]?.says ?? '',
    /taken back by a recall, and is to be washed and treated anew\. Take it out and start a new round with it\./,
  )
})

test('load-implant-with-biological wants an indicator in an implant load', () => {
  const implant = { ...pack, sealed: { ...sealed, implant: true } }
  assert.equal(findingsOf(loadImplantWithBiological, { known: [implant] }, build()).length, 1)
  const challenge = { biologicalLot: 'b1' }
  assert.deepEqual(findingsOf(loadImplantWithBiological, { known: [implant] }, build({ challenge })), [])
})

test('biological-test-due is weekly (R14)', () => {
  const last = '2026-11-17T12:00:00.000Z' as never
  const [due] = findingsOf(biologicalTestDue, { known, lastBiological: last }, build())
  assert.equal(due?.measured, '8 days ago')
  assert.equal(findingsOf(biologicalTestDue, { known }, build())[0]?.measured, 'no valid result')
  assert.deepEqual(findingsOf(biologicalTestDue, { known }, build({ challenge: { biologicalLot: 'b' } })), [])
})

test('load-program-known and leak-test-due caution', () => {
  assert.equal(findingsOf(loadProgramKnown, { known }, build({ program: '120' }))[0]?.weight, 'caution')
  assert.equal(findingsOf(leakTestDue, { known }, build())[0]?.measured, 'none recorded')
  const gravity = { ...machine, airRemoval: 'gravity' as const }
  assert.deepEqual(findingsOf(leakTestDue, { known: [gravity] }, build()), [])
})

test('leak-test-passed: the limit itself passes in spite of float noise, more leaks, short proves nothing', () => {
  const leak = (startKPa: number, endKPa: number, seconds = 600, stabilisationSeconds = 300) =>
    findingsOf(
      leakTestPassed,
      { known },
      entered('leak-tested', { machine: 'machine:s', startKPa, endKPa, seconds, stabilisationSeconds } as never),
    )
  // 1.3 kPa in 10 min, which binary arithmetic makes 0.13000000000000003.
  assert.deepEqual(leak(4, 5.3), [])
  assert.equal(leak(4, 5.4)[0]?.weight, 'stop')
  assert.equal(leak(4, 5.4)[0]?.measured, '0.14 kPa/min')
  assert.equal(leak(4, 4.1, 60)[0]?.weight, 'notEvaluable')
  assert.equal(leak(4, 4.1, 600, 10)[0]?.weight, 'notEvaluable')
  assert.equal(leak(4, 1, 600)[0]?.weight, 'notEvaluable')
  assert.equal(leak(4, 4, 0)[0]?.weight, 'notEvaluable')
})

test('air-removal-passed and air-removal-on-dynamic', () => {
  const tested = (result: 'passed' | 'failed') =>
    entered('air-removal-tested', { machine: 'machine:s', result, indicatorLot: 'a' })
  assert.deepEqual(findingsOf(airRemovalPassed, { known }, tested('passed')), [])
  assert.match(findingsOf(airRemovalPassed, { known }, tested('failed'))[0]?.says ?? '', /Repeat the test once/)
  const failing = {
    ...machine,
    airRemovalTests: machine.airRemovalTests.map((each) => ({ ...each, result: 'failed' as const })),
  }
  assert.match(findingsOf(airRemovalPassed, { known: [failing] }, tested('failed'))[0]?.says ?? '', /again/)
  assert.equal(
    findingsOf(airRemovalOnDynamic, { known: [{ ...machine, airRemoval: 'gravity' } as never] }, tested('passed'))[0]
      ?.weight,
    'note',
  )
})

test('machine-returned-proven wants three and three in a row (R16)', () => {
  const out = { ...machine, service: { state: 'withdrawn' as const, since: at('08:00'), why: 'growth' } }
  const back = entered('machine-returned', { machine: 'machine:s', why: 'proven' })
  const read = (result: 'growth' | 'noGrowth') =>
    step('11:00', { lot: 'b', result, control: { lot: 'b', result: 'growth' as const }, incubatedHours: 24 })
  const load = (number: number, result: 'growth' | 'noGrowth') =>
    knownAs('load', `load:${number}`, { biological: [read(result)] })
  const three = [1, 2, 3].map((number) => load(number, 'noGrowth'))
  const proven = { ...out, airRemovalPasses: 3 }
  assert.deepEqual(findingsOf(machineReturnedProven, { known: [proven], loadsSinceStop: three }, back), [])
  assert.equal(findingsOf(machineReturnedProven, { known: [out], loadsSinceStop: three }, back).length, 1)
  const broken = [load(0, 'noGrowth'), load(1, 'growth'), load(2, 'noGrowth'), load(3, 'noGrowth')]
  const [found] = findingsOf(machineReturnedProven, { known: [proven], loadsSinceStop: broken }, back)
  assert.equal(found?.measured, '2 in a row')
  const gravity = { ...out, airRemoval: 'gravity' as const }
  assert.deepEqual(findingsOf(machineReturnedProven, { known: [gravity], loadsSinceStop: three }, back), [])
})

test('repair-needs-proof after a major repair only', () => {
  const repair = (major: boolean) => entered('machine-repaired', { machine: 'machine:s', what: 'new pump', major })
  assert.equal(findingsOf(repairNeedsProof, { known }, repair(true)).length, 1)
  assert.deepEqual(findingsOf(repairNeedsProof, { known }, repair(false)), [])
})

test('cycle-met and cycle-of-its-load', () => {
  const report = { verdict: 'met', criteria: [], findings: [] } as never
  const log = (body: object) =>
    entered('cycle-logged', {
      load: 'load:1',
      program: '134 wrapped',
      startedAt: at('12:00'),
      endedAt: at('12:50'),
      log: '',
      report,
      ...body,
    } as never)
  const load = knownAs('load', 'load:1', { program: '134 wrapped', builtAt: at('11:50') })
  assert.deepEqual(findingsOf(cycleMet, {}, log({})), [])
  const bad = { verdict: 'notMet', criteria: [{ id: 'holding-time', result: 'notMet' }] }
  assert.match(findingsOf(cycleMet, {}, log({ report: bad }))[0]?.says ?? '', /failed \(holding-time\)/)
  const unclear = { verdict: 'notEvaluable', criteria: [] }
  assert.equal(findingsOf(cycleMet, {}, log({ report: unclear }))[0]?.weight, 'notEvaluable')
  assert.deepEqual(findingsOf(cycleOfItsLoad, { known: [load] }, log({})), [])
  assert.equal(findingsOf(cycleOfItsLoad, { known: [load] }, log({ program: '121' }))[0]?.measured, '121')
  const old = log({ startedAt: '2026-11-01T00:00:00.000Z', endedAt: '2026-11-01T01:00:00.000Z' })
  assert.equal(findingsOf(cycleOfItsLoad, { known: [load] }, old)[0]?.measured, '24 days apart')
  assert.equal(findingsOf(cycleOfItsLoad, { known: [load] }, log({ endedAt: at('11:59') })).length, 1)
})

test('chemical-passed says how far a failure reaches', () => {
  const read = (where: 'outsidePack' | 'insidePack' | 'challengeDevice', result: 'passed' | 'failed' | 'missing') =>
    findingsOf(chemicalPassed, {}, entered('chemical-read', { load: 'load:1', where, type: '5', result }))
  assert.deepEqual(read('insidePack', 'passed'), [])
  assert.match(read('insidePack', 'failed')[0]?.says ?? '', /keep the other packs of this load back/)
  assert.match(read('outsidePack', 'missing')[0]?.says ?? '', /is missing/)
  assert.match(read('challengeDevice', 'failed')[0]?.says ?? '', /whole load/)
})

test('biological readings: growth, control, incubation (R04, R07, R23)', () => {
  const read = (body: Partial<Bodies['biological-read']>) =>
    entered('biological-read', {
      load: 'load:1',
      lot: 'b1',
      result: 'noGrowth',
      control: { lot: 'b1', result: 'growth' },
      incubatedHours: 24,
      ...body,
    })
  for (const rule of [biologicalGrew, biologicalControlGrew, biologicalIncubated]) {
    assert.deepEqual(findingsOf(rule, {}, read({})), [])
  }
  assert.equal(findingsOf(biologicalGrew, {}, read({ result: 'growth' }))[0]?.weight, 'stop')
  const deadControl = read({ result: 'growth', control: { lot: 'b1', result: 'noGrowth' } })
  assert.deepEqual(
    findingsOf(biologicalGrew, {}, deadControl).map((each) => each.weight),
    ['stop', 'caution'],
  )
  const early = knownAs('load', 'load:1', { decision: step('10:00', { packs: [], earlyImplant: {} as never }) })
  assert.match(
    findingsOf(biologicalGrew, { known: [early] }, read({ result: 'growth' })).at(-1)?.says ?? '',
    /surgeon and infection control/,
  )
  const invalid = (control: Bodies['biological-read']['control']) =>
    findingsOf(biologicalControlGrew, {}, read({ control }))[0]?.says ?? ''
  assert.match(invalid(null), /no control/)
  assert.match(invalid({ lot: 'b2', result: 'growth' }), /another lot/)
  assert.match(invalid({ lot: 'b1', result: 'noGrowth' }), /did not grow/)
  assert.equal(findingsOf(biologicalIncubated, {}, read({ incubatedHours: 3, incubatorC: 37 as never })).length, 2)
})
