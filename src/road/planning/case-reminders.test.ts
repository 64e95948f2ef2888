import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { Instant } from '../instant.ts'
import type { KnownOf } from '../known.ts'
import { policyFrom } from '../policy.ts'
import { knownAs, step } from '../rule-harness.ts'
import { caseReminders } from './case-reminders.ts'

type Booked = NonNullable<KnownOf<'case'>['booked']>

function booked(rest: Partial<Booked>, state: Partial<KnownOf<'case'>> = {}): KnownOf<'case'> {
  return knownAs('case', 'case:c1', {
    booked: step('07:00', {
      patient: 'P',
      procedure: 'Operation',
      theatre: 'Theatre 1',
      plannedAt: '2026-11-26T08:00:00.000Z' as Instant,
      surgeon: 'person:ann' as const,
      implantPlanned: false,
      ...rest,
    }),
    ...state,
  })
}

const policy = policyFrom(undefined)
const short = { start: 600, end: 660 }

function bounds(known: KnownOf<'case'>, planned = short) {
  return caseReminders(known, planned, policy).map(({ kind, from, to }) => [kind, from, to])
}

// Bratzler et al., Clinical practice guidelines for antimicrobial prophylaxis in surgery, Am J Health-Syst Pharm 70 (2013)
// 195–283: begun within 60 min before incision; cefazolin again 4 h after the first dose, or after more than 1,500 mL of blood.
test('the dose has its window before the planned start', () => {
  assert.deepEqual(bounds(booked({ category: 'inguinalHernia' })), [['antibiotic', 540, 600]])
})

test('an operation that outlasts the interval is told of the further dose, one that does not is not', () => {
  const known = booked({ category: 'hysterectomy' })
  assert.deepEqual(bounds(known, { start: 600, end: 841 }), [
    ['antibiotic', 540, 600],
    ['redose', 840, 840],
  ])
  assert.deepEqual(bounds(known, { start: 600, end: 840 }), [['antibiotic', 540, 600]])
  const [, redose] = caseReminders(known, { start: 600, end: 841 }, policy)
  assert.match(
    redose?.says ?? '',
    /Longer than 4 h: a further dose if it was cefazolin, and after a loss of blood above 1500 mL/,
  )
})

test('where none is customary nothing is told, and where the kind is not known that is told', () => {
  assert.deepEqual(bounds(booked({ category: 'diagnosticLaparoscopy' })), [])
  assert.deepEqual(bounds(booked({ category: 'cholecystectomy' })), [])
  const [dose] = caseReminders(booked({}), short, policy)
  assert.match(dose?.says ?? '', /the kind of operation is not noted/)
})

test('an implant in a wound that may not be clean wants its decision before the start, until it is recorded', () => {
  const unclean = { category: 'diagnosticLaparoscopy', implantPlanned: true, forPlan: { woundClass: 'II' } } as const
  assert.deepEqual(bounds(booked(unclean)), [['implantDecision', null, 600]])
  assert.deepEqual(bounds(booked({ ...unclean, forPlan: { woundClass: 'I' } })), [])
  const decided = booked(unclean, { implantDecision: step('08:00', {} as never) })
  assert.deepEqual(bounds(decided), [])
})

test('an allergy is named with the case', () => {
  const known = booked(
    { category: 'diagnosticLaparoscopy' },
    { patientFacts: step('07:00', { allergies: ['latex'] } as never) },
  )
  const [allergy] = caseReminders(known, short, policy)
  assert.deepEqual([allergy?.kind, allergy?.to], ['allergy', 600])
  assert.match(allergy?.says ?? '', /^Allergic to latex/)
})
