import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { PatientIdentity } from '#road/people/identity.ts'
import { matchesPatient } from './matches-patient.ts'

/* An invented patient. */
const patient: PatientIdentity = {
  name: 'Émile Żuk-Wałęsa',
  hospitalNumber: 'H-7781',
  bornOn: '1971-04-02',
  phone: '555 0142',
}

for (const text of [
  'Émile',
  'emile',
  'E\u0301mile',
  'ZUK',
  'Zuk Émile',
  'walesa',
  'Żuk-Wałęsa',
  '555-0142',
  '5550142',
  '555 0142',
  '0142',
  '1971-04-02',
  '2.4.1971',
  '02/04/1971',
  'h7781',
  'H-7781',
  'zuk 1971',
])
  test(`“${text}” finds the patient`, () => assert.ok(matchesPatient(text)(patient)))

for (const text of ['Emil Zuks', '3.4.1971', '4.2.1971', '5550143', 'Zuleika', '--', ' '])
  test(`“${text}” does not`, () => assert.ok(!matchesPatient(text)(patient)))
