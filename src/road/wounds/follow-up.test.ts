import assert from 'node:assert/strict'
import { test } from 'node:test'
import { instant, millis } from '../instant.ts'
import type { Bodies } from '../kinds.ts'
import type { KnownOf } from '../known.ts'
import { policyFrom } from '../policy.ts'
import { at, knownAs, step } from '../rule-harness.ts'
import { followUpsOf } from './follow-up/follow-ups-of.ts'
import { caseLine } from './surveillance/line.ts'
import { rateOf } from './surveillance/rates.ts'

const policy = policyFrom(undefined)
const start = at('08:00')
const day = (number: number) => instant(millis(start) + (number - 1) * 86_400_000)

function operation(
  rest: Partial<KnownOf<'case'>> = {},
  category: Bodies['case-booked']['category'] = 'cholecystectomy',
) {
  return knownAs('case', 'case:1', {
    booked: step('07:00', {
      patient: 'p1',
      procedure: 'operation',
      category,
      theatre: 'T1',
      plannedAt: start,
      surgeon: 'person:ann' as const,
      implantPlanned: false,
    }),
    recorded: step('09:30', {
      startedAt: start,
      endedAt: at('09:00'),
      woundClass: 'II' as const,
      surgeon: 'person:ann' as const,
      implant: null,
      antibiotic: null,
    }),
    ...rest,
  })
}

const call = (number: number, reached: 'patient' | 'nobody' = 'patient') => ({
  ...step('08:00', { means: 'phone' as const, reached, wound: 'well' as const, signs: [], alive: 'yes' as const }),
  at: day(number),
})

const states = (known: KnownOf<'case'>, today: number, wounds: readonly KnownOf<'wound'>[] = []) => {
  const followUp = followUpsOf(known, wounds, policy, day(today))
  return [followUp?.calls.map((each) => `${each.day} ${each.state}`).join(', '), followUp?.standing]
}

test('calls: on day 10, when the window ends, and on day 90; done by whoever was reached on the day or later', () => {
  assert.deepEqual(states(operation(), 2), ['10 later, 30 later, 90 later', 'running'])
  assert.deepEqual(states(operation(), 10), ['10 due, 30 later, 90 later', 'running'])
  assert.deepEqual(states(operation(), 18), ['10 overdue, 30 later, 90 later', 'running'])
  assert.deepEqual(states(operation({ followUps: [call(11)] }), 18), ['10 done, 30 later, 90 later', 'running'])
  assert.deepEqual(states(operation({ followUps: [call(11, 'nobody')] }), 12)[0], '10 due, 30 later, 90 later')
  // Somebody reached on day 32 is known to day 30: the window is complete, and the early call is done with it.
  assert.deepEqual(states(operation({ followUps: [call(32)] }), 40), ['10 done, 30 done, 90 later', 'complete'])
  // A call on day 29 does not reach the end of the window.
  assert.deepEqual(states(operation({ followUps: [call(29)] }), 40)[0], '10 done, 30 overdue, 90 later')
  assert.deepEqual(states(operation({ followUps: [call(29)] }), 70), ['10 done, 30 lost, 90 later', 'lost'])
})

test('calls: a hernia with its window of 90 days has no third call; before the operation there is none', () => {
  assert.deepEqual(states(operation({}, 'inguinalHernia'), 5)[0], '10 later, 90 later')
  assert.equal(followUpsOf(knownAs('case', 'case:1'), [], policy, day(5)), null)
})

const judged = (number: number): KnownOf<'wound'> =>
  knownAs('wound', 'wound:1', {
    noted: step('12:00', {
      case: 'case:1' as const,
      onsetAt: day(number),
      depth: 'superficial' as const,
      signs: 'pus',
      culture: 'growth' as const,
      acidFast: 'negative' as const,
      organism: 'Staphylococcus aureus',
    }),
    judged: step('12:00', {
      outcome: 'infection' as const,
      depth: 'superficial' as const,
      criteria: ['pusFromIncision' as const],
      eventAt: day(number),
    }),
  })

test('an infection or a death ends the calls; a follow-up that is given up is lost', () => {
  assert.deepEqual(states(operation(), 12, [judged(6)]), ['10 notNeeded, 30 notNeeded, 90 notNeeded', 'complete'])
  const ended = (because: Bodies['follow-up-ended']['because']) =>
    states(operation({ followUpEnded: step('08:00', { because }) }), 12)
  assert.deepEqual(ended('died'), ['10 notNeeded, 30 notNeeded, 90 notNeeded', 'complete'])
  assert.deepEqual(ended('declined'), ['10 lost, 30 lost, 90 lost', 'lost'])
})

test('the rate counts what lies within the window, keeps the late ones beside it, and is bounded by who was lost', () => {
  const line = (known: KnownOf<'case'>, wounds: readonly KnownOf<'wound'>[] = []) => {
    const made = caseLine({
      operation: known,
      wounds,
      policy,
      cuts: new Map(),
      now: day(200),
      dayOf: (moment) => moment.slice(0, 10),
    })
    assert.ok(made !== null)
    return made
  }
  const lines = [
    line(operation(), [judged(30)]),
    line(operation(), [judged(31)]),
    line(operation({ followUps: [call(31)] })),
    line(operation({ followUps: [call(12)] })),
  ]
  assert.deepEqual(
    lines.map((each) => [each.infection?.counted ?? null, each.infection?.onsetDays ?? null, each.followUp.standing]),
    [
      [true, 29, 'complete'],
      [false, 30, 'complete'],
      [null, null, 'complete'],
      [null, null, 'lost'],
    ],
  )
  const rate = rateOf(lines)
  assert.deepEqual([rate.operations, rate.infections, rate.late, rate.rate], [4, 1, 1, 0.25])
  assert.deepEqual(rate.followUp, { ended: 4, known: 3, running: 0, lost: 1 })
  assert.deepEqual(rate.bounds, { best: 0.25, worst: 0.5 })
})
