import assert from 'node:assert/strict'
import { test } from 'node:test'
import * as fc from 'fast-check'
import { bindingResource } from './binding-resource.ts'
import { checkPlan } from './check-plan.ts'
import { followOrder, orderOf } from './follow-order.ts'
import { PlanInstance } from './instance.ts'
import { otherPlaces } from './other-places.ts'
import { planChanges } from './plan-changes.ts'
import { planDay } from './plan-day.ts'
import { planDayWorking } from './plan-day-working.ts'
import { randomDay } from './random-day.suite.ts'
import { replanDay } from './replan-day.ts'
import { setSlacks } from './set-slacks.ts'
import { whatHolds } from './what-holds.ts'

/*
 * One theatre from 00:30, two cases of 60 min, one LAP set: it is packed from 01:30 to 01:45 and sterilised until 02:45, so
 * with a lead of 10 min the second case begins at 02:55. Worked out by hand.
 */
const { day: example } = planDayWorking.example.input as { day: unknown }
const day = PlanInstance.parse(example)
const plan = planDay(day, { seed: 1, decodes: 1000 })
assert.ok(plan.schedule !== null)
const { schedule } = plan

test('slack is from sterile to needed: none for the set that the second case waits for', () => {
  const slacks = setSlacks(day, schedule)
  assert.deepEqual(
    slacks.map(({ case: one, sterileAt, neededAt, slack, after }) => [one, sterileAt, neededAt, slack, after]),
    [
      ['C2', 165, 165, 0, 'C1'],
      ['C1', 0, 20, 20, null],
    ],
  )
})

test('each case has what it waits for, and the resource that holds the day is told', () => {
  const holds = whatHolds(day, schedule)
  assert.deepEqual(
    holds.map(({ case: one, by, what, waited }) => [one, by, what, waited]),
    [
      ['C1', 'opening', 'T1', 0],
      // The theatre is ready at 01:45 and the case begins at 02:55.
      ['C2', 'set', 'LAP', 70],
    ],
  )
  assert.deepEqual(bindingResource(day, schedule), {
    kind: 'set',
    what: 'LAP',
    minutes: 70,
    says: 'Sets LAP bind: cases wait 70 min for them while a theatre is free.',
  })
})

test('the order of the plan itself is sound, and a worse one is said to be', () => {
  const same = followOrder(day, orderOf(schedule), 100, 1)
  assert.deepEqual([same.objective, same.broken], [plan.objective, []])
  const late = { ...day, cases: day.cases.map((one) => (one.id === 'C1' ? { ...one, latest: 60 } : one)) }
  const broken = followOrder(late, orderOf(schedule).toReversed(), 100, 1)
  assert.ok(broken.broken.some((says) => /C1 starts after its latest time/.test(says)))
})

test('a case whose sets never come is said never to begin', () => {
  const closed = { ...day, pools: day.pools.map((pool) => ({ ...pool, to: 100 })) }
  const followed = followOrder(closed, orderOf(schedule), 50, 1)
  assert.equal(followed.never.length, 1)
  assert.match(followed.broken[0] ?? '', /never begins/)
})

test('another place of a case costs what the other order gives', () => {
  const unlike = {
    ...day,
    cases: day.cases.map((one, at) => ({ ...one, wound: at === 0 ? ('clean' as const) : ('dirty' as const) })),
  }
  const best = planDay(unlike, { seed: 1, decodes: 1000 })
  assert.ok(best.schedule !== null)
  const places = otherPlaces(unlike, best, { decodes: 40, seed: 1, most: 100 })
  assert.deepEqual(
    places.map(({ case: one, place, costs }) => [one, place, costs.inversions, costs.overtime]),
    [
      ['C1', 2, 1, 0],
      ['C2', 1, 1, 0],
    ],
  )
})

test('planned again with nothing changed, nothing changes; later by as little as it must', () => {
  const same = replanDay(day, schedule.cases, { seed: 1, decodes: 2000 })
  assert.deepEqual([same.changes, same.moved, same.shifted], [[], 0, 0])
  const late = { ...day, theatres: day.theatres.map((theatre) => ({ ...theatre, open: 50 })) }
  const after = replanDay(late, schedule.cases, { seed: 1, decodes: 2000 })
  // Twenty minutes later from the beginning to the end, since the set comes back twenty minutes later.
  assert.deepEqual(
    after.changes.map(({ says }) => says),
    ['C1 begins 20 min later, at 00:50.', 'C2 begins 20 min later, at 03:15.'],
  )
  assert.equal(after.moved, 0)
})

test('changes name what is new, gone and moved', () => {
  const before = { A: { theatre: 'T1', start: 480 }, B: { theatre: 'T1', start: 600 } }
  const after = { A: { theatre: 'T2', start: 510 }, C: { theatre: 'T1', start: 480 } }
  assert.deepEqual(
    planChanges(before, after).map(({ kind, says }) => [kind, says]),
    [
      ['gone', 'B is no longer on the list (it was in T1 at 10:00).'],
      ['added', 'C is new: T1 at 08:00.'],
      ['moved', 'A goes from T1 at 08:00 to T2 at 08:30.'],
    ],
  )
})

test('whatever day, an order that is called sound passes the checker, and replanning the plan itself breaks nothing', () => {
  fc.assert(
    fc.property(randomDay, (random) => {
      const found = planDay(random, { seed: 1, decodes: 300 })
      if (found.schedule === null) return
      const followed = followOrder(random, orderOf(found.schedule), 100, 1)
      if (followed.broken.length === 0) assert.deepEqual(checkPlan(random, followed.schedule), [])
      const again = replanDay(random, found.schedule.cases, { seed: 1, decodes: 600 })
      assert.equal(again.broken.length > 0, checkPlan(random, again.schedule).length > 0 || again.never.length > 0)
    }),
    { numRuns: 60 },
  )
})
