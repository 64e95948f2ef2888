import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { Bodies } from '../kinds.ts'
import { at, entered, findingsOf, knownAs, step } from '../rule-harness.ts'
import { plannedBreaksNothing } from './rules/planned-breaks-nothing.ts'
import { plannedImplantDecided } from './rules/planned-implant-decided.ts'

const plan: Bodies['list-planned'] = {
  list: 'list:2026-11-26',
  day: '2026-11-26',
  because: 'planned',
  status: 'optimal',
  objective: { inversions: 0, overtime: 0, occupied: 60 },
  bound: { inversions: 0, overtime: 0, occupied: 60 },
  cases: [{ case: 'case:a', theatre: 'Theatre 1', startAt: at('08:00'), endsAt: at('09:00') }],
  breaks: [],
  notes: [],
}

const booked = (category?: 'cholecystectomy' | 'inguinalHernia', implantPlanned = true) =>
  knownAs('case', 'case:a', {
    booked: step('07:00', {
      patient: 'P-1',
      procedure: 'Operation',
      ...(category === undefined ? {} : { category }),
      theatre: 'Theatre 1',
      plannedAt: at('08:00'),
      surgeon: 'person:ann' as const,
      implantPlanned,
    }),
  })

const decided = (outcome: 'implant' | 'noImplant') => ({
  ...booked('cholecystectomy'),
  implantDecision: step('07:30', { outcome, why: 'Decided at the conference' }),
})

test('planned-implant-decided: an implant in a wound that will not be clean needs its decision, an unknown one is not evaluable', () => {
  const rows = [
    [booked('cholecystectomy'), ['stop']],
    [booked('inguinalHernia'), []],
    [booked(), ['notEvaluable']],
    [booked('cholecystectomy', false), []],
    [decided('implant'), []],
    [decided('noImplant'), ['stop']],
  ] as const
  for (const [known, weights] of rows) {
    const found = findingsOf(plannedImplantDecided, { known: [known] }, entered('list-planned', plan))
    assert.deepEqual(
      found.map(({ weight }) => weight),
      weights,
    )
  }
})

test('planned-breaks-nothing: each broken rule of a list that is kept is said', () => {
  const broken = { ...plan, status: 'byHand' as const, breaks: ['A lies outside the hours of Theatre 1'] }
  assert.deepEqual(findingsOf(plannedBreaksNothing, {}, entered('list-planned', plan)), [])
  const [found] = findingsOf(plannedBreaksNothing, {}, entered('list-planned', broken))
  assert.equal(found?.weight, 'caution')
  assert.match(found?.says ?? '', /outside the hours of Theatre 1/)
})
