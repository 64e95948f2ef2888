import assert from 'node:assert/strict'
import { test } from 'node:test'
import { entered, findingsOf, type Given, knownAs, step } from '../rule-harness.ts'
import type { CycleReport } from './entries.ts'
import { biologicalIncubated } from './rules/biological-incubated.ts'
import { biologicalTestDue } from './rules/biological-test-due.ts'
import { loadWithBiological } from './rules/load-with-biological.ts'
import { releaseWithBiological } from './rules/release-with-biological.ts'

/* What the methods other than steam ask of biological indicators. */

const gas = knownAs('machine', 'machine:gas', { type: 'ethyleneOxideSteriliser', airRemoval: 'none' })
const peroxide = knownAs('machine', 'machine:h', { type: 'hydrogenPeroxideSteriliser', airRemoval: 'none' })
const pack = knownAs('round', 'round:r', {})
const report: CycleReport = {
  verdict: 'met',
  holdingSeconds: null,
  equilibrationSeconds: null,
  fMinutes: null,
  fReferenceC: 121,
  zK: 10,
  minC: null,
  maxC: null,
  maxSpreadK: null,
  criteria: [],
  findings: [],
}

const built = (machine: 'machine:gas' | 'machine:h', challenge?: { biologicalLot: string }) =>
  entered('load-built', {
    load: 'load:l',
    machine,
    program: 'p',
    purpose: 'goods',
    rounds: ['round:r'],
    ...(challenge ? { challenge } : {}),
  })

test('load-with-biological: ethylene oxide in every load; peroxide by its rhythm', () => {
  const found = (given: Given, entry: ReturnType<typeof built>) => findingsOf(loadWithBiological, given, entry)
  assert.equal(found({ known: [gas] }, built('machine:gas'))[0]?.weight, 'stop')
  assert.deepEqual(found({ known: [gas] }, built('machine:gas', { biologicalLot: 'b' })), [])
  assert.deepEqual(found({ known: [peroxide] }, built('machine:h')), [])
  const each = { 'biological-rhythm-hydrogen-peroxide': 'each load' }
  assert.equal(found({ known: [peroxide], limits: each }, built('machine:h')).length, 1)
})

test('biological-test-due: peroxide is overdue after a day, ethylene oxide is asked in each load instead', () => {
  assert.equal(findingsOf(biologicalTestDue, { known: [peroxide] }, built('machine:h')).length, 1)
  assert.deepEqual(findingsOf(biologicalTestDue, { known: [gas] }, built('machine:gas')), [])
})

test('release-with-biological: R13 none is held; pending and invalid are held; no growth goes', () => {
  const released = entered('load-decided', { load: 'load:l', packs: [{ round: 'round:r', outcome: 'released' }] })
  const found = (over: Parameters<typeof knownAs<'load'>>[2], more: Given = {}, machine = gas) => {
    const load = knownAs('load', 'load:l', { machine: machine.id, rounds: ['round:r'], ...over })
    return findingsOf(releaseWithBiological, { known: [machine, load, pack], ...more }, released)
  }
  const read = (control: 'growth' | 'noGrowth') =>
    step('11:00', { lot: 'b', result: 'noGrowth' as const, control: { lot: 'b', result: control }, incubatedHours: 48 })
  assert.match(found({})[0]?.says ?? '', /carried no biological/)
  assert.match(found({ challenge: { biologicalLot: 'b' } })[0]?.says ?? '', /not read yet/)
  assert.match(found({ biological: [read('noGrowth')] })[0]?.says ?? '', /invalid/)
  assert.deepEqual(found({ biological: [read('growth')] }), [])
  assert.deepEqual(found({}, {}, peroxide), [])

  const cycle = step('10:00', {
    program: 'p',
    startedAt: released.happenedAt,
    endedAt: released.happenedAt,
    log: '' as never,
    report,
  })
  const allowed = { limits: { 'parametric-release': 'steam, dry heat and ethylene oxide' } }
  assert.equal(found({ cycle })[0]?.weight, 'stop')
  assert.match(found({ cycle }, allowed)[0]?.says ?? '', /sensor of its own/)
  assert.equal(found({ cycle }, allowed, { ...gas, independentRecord: true })[0]?.weight, 'note')
})

test('biological-incubated: each method by its organism', () => {
  const at = (machine: typeof gas, incubatedHours: number, incubatorC: number) => {
    const load = knownAs('load', 'load:l', { machine: machine.id })
    const control = { lot: 'b', result: 'growth' } as const
    const body = {
      load: 'load:l',
      lot: 'b',
      result: 'noGrowth',
      control,
      incubatedHours,
      incubatorC: incubatorC as never,
    } as const
    return findingsOf(biologicalIncubated, { known: [machine, load] }, entered('biological-read', body)).map(
      (each) => each.limit,
    )
  }
  assert.deepEqual(at(gas, 48, 36), [])
  assert.deepEqual(at(gas, 24, 57), ['at least 48 h', '30 to 37 °C'])
  assert.deepEqual(at(peroxide, 24, 57), [])
})
