import assert from 'node:assert/strict'
import { after, test } from 'node:test'
import { checkPlan } from '#workings/planning/check-plan.ts'
import { planDay } from '#workings/planning/plan-day.ts'
import { modelOf } from '#workings/planning/plan-model.ts'
import { compareObjectives } from '#workings/planning/plan-schedule.ts'
import { PlanStanding } from '#workings/planning/plan-standing.ts'
import { seededDay } from '../../bench/plan-days.ts'
import { constraintSolver } from '#service/solver/constraint-solver.ts'
import { improvePlan } from '#service/planning/improve-plan.ts'

const solver = constraintSolver()
after(() => solver.close())

test('a first plan of two lists is bettered neighbourhood by neighbourhood, each better plan sound', async () => {
  const day = seededDay('2 × 6', 3)
  const first = planDay(day, { seed: 1, decodes: 100 })
  assert.ok(first.schedule !== null)
  const standing = new PlanStanding(day, first.bound)
  standing.offer(first.schedule)
  let before = first.objective
  const onPlan = (): void => {
    const { objective, schedule } = standing.best ?? assert.fail()
    assert.ok(compareObjectives(objective, before) < 0)
    assert.deepEqual(checkPlan(day, schedule), [])
    before = objective
  }
  await improvePlan(modelOf(day), standing, solver, { seed: 1, secondsLeft: () => 600, work: 1, onPlan }, 12)
  assert.ok(compareObjectives(before, first.objective) < 0)
})
