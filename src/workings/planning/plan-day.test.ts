import assert from 'node:assert/strict'
import { test } from 'node:test'
import * as fc from 'fast-check'
import { checkPlan } from './check-plan.ts'
import type { PlanInstance } from './instance.ts'
import { planDay } from './plan-day.ts'
import { compareObjectives, type PlanSchedule } from './plan-schedule.ts'
import { randomDay } from './random-day.suite.ts'

/** Counts the objective anew, pair by pair, by no code of the planner. */
function recount(day: PlanInstance, { cases }: PlanSchedule) {
  const ranks = { clean: 1, 'clean-contaminated': 2, contaminated: 3, dirty: 4 }
  const rankOf = (one: PlanInstance['cases'][number]): number =>
    one.infectious ? 5 : one.wound === 'clean' && one.implant ? 0 : ranks[one.wound]
  let inversions = 0
  let overtime = 0
  let occupied = 0
  for (const theatre of day.theatres) {
    const own = day.cases.filter(({ id }) => cases[id]?.theatre === theatre.id)
    const startOf = (one: PlanInstance['cases'][number]): number => cases[one.id]?.start ?? Number.NaN
    for (const a of own) for (const b of own) if (startOf(a) < startOf(b) && rankOf(a) > rankOf(b)) inversions += 1
    if (own.length === 0) continue
    const end = Math.max(...own.map((one) => startOf(one) + one.dur))
    overtime += end > theatre.close ? end - theatre.close : 0
    occupied += end - theatre.open
  }
  return { inversions, overtime, occupied }
}

test('every plan of a small random day keeps every rule, counts as said, and is never better than its bound', () => {
  let planned = 0
  fc.assert(
    fc.property(randomDay, (day) => {
      const answer = planDay(day, { seed: 7, decodes: 400 })
      if (answer.schedule === null) {
        assert.ok(answer.reasons.length > 0)
        return
      }
      planned += 1
      assert.deepEqual(checkPlan(day, answer.schedule), [])
      assert.deepEqual(recount(day, answer.schedule), answer.objective)
      assert.ok(compareObjectives(answer.bound, answer.objective) <= 0, JSON.stringify(answer))
      assert.equal(answer.status, compareObjectives(answer.bound, answer.objective) === 0 ? 'optimal' : 'feasible')
    }),
    { numRuns: 150 },
  )
  assert.ok(planned > 30, `only ${planned} of 150 days had a plan`)
})

test('the same seed and number of decodes give the same plan, and each better plan is told as it is found', () => {
  fc.assert(
    fc.property(randomDay, (day) => {
      const told: number[] = []
      const answer = planDay(day, {
        seed: 3,
        decodes: 300,
        onBetter: ({ objective }) => told.push(objective === null ? -1 : 1),
      })
      assert.deepEqual(planDay(day, { seed: 3, decodes: 300 }), answer)
      assert.ok(told.every((each) => each === 1))
      assert.equal(told.length > 0, answer.schedule !== null)
    }),
    { numRuns: 30 },
  )
})
