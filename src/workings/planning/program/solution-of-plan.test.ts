import assert from 'node:assert/strict'
import { test } from 'node:test'
import * as fc from 'fast-check'
import { brokenBy } from '#workings/constraints/broken-by.ts'
import { seededGenerator } from '#workings/statistics/special/seeded-generator.ts'
import { checkPlan } from '../check-plan.ts'
import { planDay } from '../plan-day.ts'
import { modelOf } from '../plan-model.ts'
import { objectiveOf } from '../plan-objective.ts'
import { randomDay } from '../random-day.suite.ts'
import { drawFreed, neighbourhood } from './neighbourhood.ts'
import { occupiedWeight, type PlanProgram, planProgram } from './plan-program.ts'
import { readProgram } from './read-program.ts'
import { solutionOfPlan } from './solution-of-plan.ts'

test('a plan of the search is a solution of its day’s program, reads back as a sound plan, and is in each of its neighbourhoods', () => {
  let planned = 0
  fc.assert(
    fc.property(randomDay, fc.integer({ min: 0, max: 1000 }), (day, seed) => {
      const answer = planDay(day, { seed, decodes: 200 })
      if (answer.schedule === null) return
      planned += 1
      const model = modelOf(day)
      const most = { ...answer.objective, occupied: occupiedWeight(model) }
      const ask = (mostMinutes?: number): PlanProgram =>
        planProgram(model, { line: 'loads', goal: 'minutes', most, mostMinutes })
      const program = ask()
      const values = solutionOfPlan(program, answer.schedule)
      assert.ok(values !== null, 'the program leaves the plan out')
      const read = readProgram(program, values)
      assert.deepEqual(checkPlan(day, read), [])
      assert.deepEqual(objectiveOf(day, read), answer.objective)
      const freed = drawFreed(program, values, seededGenerator(seed), 0.3)
      assert.deepEqual(brokenBy(neighbourhood(program, values, freed), values), [])
      const { overtime, occupied } = answer.objective
      const better = ask(overtime * program.weight + occupied - 1)
      assert.equal(solutionOfPlan(better, answer.schedule), null)
    }),
    { numRuns: 120 },
  )
  assert.ok(planned > 30, `only ${planned} of 120 days had a plan`)
})
