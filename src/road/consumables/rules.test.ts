import assert from 'node:assert/strict'
import { test } from 'node:test'
import { at, entered, findingsOf, knownAs, step } from '../rule-harness.ts'
import { machineWithinCalibration } from './rules/machine-within-calibration.ts'

const calibrated = (found: 'withinTolerance' | 'outOfTolerance', nextDueAt = at('23:00')) => ({
  calibration: step('09:00', { what: 'temperature sensor', found, nextDueAt }),
})
const load = entered('load-built', {
  load: 'load:1',
  machine: 'machine:s',
  program: '134',
  purpose: 'goods',
  rounds: [],
})
const weights = (state: object) =>
  findingsOf(machineWithinCalibration, { known: [knownAs('machine', 'machine:s', state)] }, load).map(
    (finding) => finding.weight,
  )

test('machine-within-calibration stops goods on a machine out of tolerance and cautions when it is overdue', () => {
  assert.deepEqual(weights({}), [])
  assert.deepEqual(weights(calibrated('withinTolerance')), [])
  assert.deepEqual(weights(calibrated('withinTolerance', at('11:00'))), ['caution'])
  assert.deepEqual(weights(calibrated('outOfTolerance')), ['stop'])
  assert.deepEqual(weights({ serviced: step('09:00', { what: 'yearly', nextDueAt: at('11:00') }) }), ['caution'])
})

test('a calibration out of tolerance names since when the loads are in doubt', () => {
  const machine = knownAs('machine', 'machine:s', { lastGoodCalibration: at('08:00') })
  const entry = entered('machine-calibrated', {
    machine: 'machine:s',
    what: 'temperature sensor',
    found: 'outOfTolerance',
    nextDueAt: at('23:00'),
  })
  const [found] = findingsOf(machineWithinCalibration, { known: [machine] }, entry)
  assert.equal(found?.weight, 'stop')
  assert.ok(found?.says.includes(at('08:00')))
})
