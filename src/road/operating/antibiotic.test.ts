import assert from 'node:assert/strict'
import { test } from 'node:test'
import { at, entered, findingsOf } from '../rule-harness.ts'
import { antibioticDose } from './antibiotic-dose.ts'
import { antibioticInTime } from './rules/antibiotic-in-time.ts'

test('antibiotic-in-time: W11, W13, W14 as a case is recorded', () => {
  const found = (drug: string, startedAt: string) =>
    findingsOf(
      antibioticInTime,
      {},
      entered('case-recorded', {
        case: 'case:1',
        startedAt: at('10:00'),
        endedAt: at('11:00'),
        woundClass: 'I',
        surgeon: 'person:sam',
        implant: null,
        antibiotic: { drug, startedAt: at(startedAt) },
      }),
    ).map((finding) => finding.measured)
  assert.deepEqual(found('cefazolin', '09:30'), [])
  assert.deepEqual(found('cefazolin', '09:00'), [])
  assert.deepEqual(found('Cefazolin', '08:59'), ['61 min before'])
  assert.deepEqual(found('Vancomycin', '08:20'), [])
  assert.deepEqual(found('a drug not in the table', '08:20'), ['100 min before'])
  assert.deepEqual(found('cefazolin', '10:05'), ['5 min after'])
})

test('antibioticDose: gentamicin counts the ideal weight and four tenths of the rest', () => {
  // 175 cm male: 50 + 2.3 * (68.898 - 60) = 70.46 kg; 120 kg is more than 20 % above: 70.46 + 0.4 * 49.54 = 90.28 kg.
  assert.deepEqual(antibioticDose('gentamicin', { weightKg: 70, heightCm: 175, sex: 'male' }), {
    kind: 'byWeight',
    mg: 350,
    dosingKg: 70,
  })
  const heavy = antibioticDose('gentamicin', { weightKg: 120, heightCm: 175, sex: 'male' })
  assert.ok(heavy.kind === 'byWeight' && heavy.mg === 451)
  assert.deepEqual(antibioticDose('gentamicin', { weightKg: 120 }), { kind: 'heightNeeded' })
})
