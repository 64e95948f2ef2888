import assert from 'node:assert/strict'
import { test } from 'node:test'
import { planDay } from '#workings/planning/plan-day.ts'
import { replanDay } from '#workings/planning/replan-day.ts'
import type { Instant } from '../instant.ts'
import type { KnownOf } from '../known.ts'
import { policyFrom } from '../policy.ts'
import type { RoundKnown } from '../round.ts'
import { knownAs, step } from '../rule-harness.ts'
import type { DayFacts } from './day-facts.ts'
import { instanceOfDay } from './instance-of-day.ts'

/* A day that is planned again after something happened to a set: only its round and its load are other than before. */

const now = '2026-11-25T12:00:00.000Z' as Instant
const onShelf: Partial<RoundKnown> = {
  sealed: step('07:00', {} as never),
  load: step('08:00', { id: 'load:1' as const }),
  decision: step('09:00', { load: 'load:1' as const, outcome: 'released' as const, why: null }),
  stored: step('09:30', { place: 'Store' }),
}

function booked(key: string, plannedAt: string): KnownOf<'case'> {
  return knownAs('case', `case:${key}`, {
    booked: step('07:00', {
      patient: 'P',
      procedure: 'Operation',
      category: 'cholecystectomy' as const,
      theatre: 'Theatre 1',
      plannedAt: plannedAt as Instant,
      surgeon: 'person:ann' as const,
      implantPlanned: false,
      forPlan: { minutes: 60, sets: { Basic: 1 } },
    }),
  })
}

/** Two operations in one theatre that each want one of two sets. */
function factsWith(second: Partial<RoundKnown>, loads: DayFacts['loads'] = []): DayFacts {
  const sets = ['1', '2'].map((key) =>
    knownAs('set', `set:${key}`, {
      name: `Basic ${key}`,
      countSheet: [{ device: 'device:grasper', count: 3 }],
      round: { id: `round:${key}`, began: now },
      rounds: 1,
    }),
  )
  const rounds = [onShelf, second].map((round, index) =>
    knownAs('round', `round:${index + 1}`, { set: `set:${index + 1}`, ...round }),
  )
  return {
    day: '2026-11-26',
    now,
    policy: policyFrom(undefined),
    unit: { timeZone: 'UTC' },
    cases: [booked('c1', '2026-11-26T08:00:00.000Z'), booked('c2', '2026-11-26T09:30:00.000Z')],
    past: [],
    sets,
    rounds,
    loads,
    doubts: new Map(),
    machines: [
      knownAs('machine', 'machine:a', { name: 'Steriliser', type: 'steamSteriliser', programs: ['p'] }),
      knownAs('machine', 'machine:w', { name: 'Washer', type: 'washer', programs: ['p'] }),
    ],
    runs: new Map(),
    baths: [],
    devices: [knownAs('device', 'device:grasper', { name: 'Grasper', steam: 'allowed' })],
    items: [],
  }
}

function keptPlan() {
  const { instance } = instanceOfDay(factsWith(onShelf))
  assert.ok(instance !== null)
  const plan = planDay(instance, { seed: 1, decodes: 500 })
  assert.ok(plan.schedule !== null)
  const starts = Object.values(plan.schedule.cases).map(({ start }) => start)
  // 08:00, and after 60 min and a turnover of 20 min 09:20: each has a set of its own.
  assert.deepEqual(
    starts.toSorted((a, b) => a - b),
    [480, 560],
  )
  return plan.schedule.cases
}

function replanned(after: DayFacts) {
  const kept = keptPlan()
  const made = instanceOfDay(after)
  assert.ok(made.instance !== null)
  return { kept, made, again: replanDay(made.instance, kept, { seed: 1, decodes: 2000 }) }
}

/** The case that came second waits for the set of the first to come back; who is first stays as it was. */
function waitsForTheOtherSet({ kept, made, again }: ReturnType<typeof replanned>): void {
  const [first = '', second = ''] = Object.keys(kept).toSorted((a, b) => (kept[a]?.start ?? 0) - (kept[b]?.start ?? 0))
  assert.equal(made.instance?.setTypes[0]?.units, 1)
  assert.deepEqual([again.broken, again.never, again.moved], [[], [], 0])
  assert.equal(again.schedule.cases[first]?.start, 480)
  const ready = again.schedule.uses.find((use) => use.case === first)?.job?.ready ?? 0
  const lead = made.instance?.setTypes[0]?.lead ?? 0
  assert.ok(ready > 540)
  assert.equal(again.schedule.cases[second]?.start, ready + lead)
  assert.deepEqual(
    again.changes.map((change) => [change.kind, change.says.startsWith(`${second} begins `)]),
    [['later', true]],
  )
}

test('after a set was dropped the second case waits for the other set to come back', () => {
  const result = replanned(factsWith({ ...onShelf, damage: step('11:00', { condition: 'torn' as const }) }))
  assert.ok(result.made.findings.some(({ says }) => says.startsWith('Basic 2 is not counted on: its pack is torn')))
  waitsForTheOtherSet(result)
})

test('after a failed cycle its set is not counted on until its round begins anew, and then comes through the line', () => {
  const rejected = step('11:00', { load: 'load:1' as const, outcome: 'rejected' as const, why: 'The cycle failed' })
  const { stored: _, ...inLoad } = onShelf
  const failed = replanned(factsWith({ ...inLoad, decision: rejected }))
  assert.ok(
    failed.made.findings.some(({ says }) => says.startsWith('Basic 2 is not counted on: its load was rejected')),
  )
  waitsForTheOtherSet(failed)
  // Its next round: washed already at noon of the day before, and so sterile again long before the list.
  const { again, kept } = replanned(factsWith({ wash: step('11:30', {} as never) }))
  assert.deepEqual([again.changes, again.schedule.cases], [[], kept])
})
