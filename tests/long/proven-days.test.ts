import assert from 'node:assert/strict'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { after, test } from 'node:test'
import { planInBackground } from '#service/planning/plan-in-background.ts'
import { constraintSolver } from '#service/solver/constraint-solver.ts'
import { checkPlan } from '#workings/planning/check-plan.ts'
import { PlanInstance } from '#workings/planning/instance.ts'
import { compareObjectives, type PlanObjective } from '#workings/planning/plan-schedule.ts'
import { seededDay } from '../../bench/plan-days.ts'
import { knownSchedule } from '../support/shop-program.ts'

const solver = constraintSolver()
after(() => solver.close())

// One worker does not prove ft10 in a quarter of an hour; eight, which search in eight ways, did in 33 s on two cores.
for (const [name, workers] of [
  ['la16', 1],
  ['ft10', 8],
] as const)
  test(`${name}: the published least makespan is found and proven`, async () => {
    const { model, makespan } = knownSchedule(name)
    const solved = await solver.solve(model, { seconds: 900, seed: 1, workers })
    assert.partialDeepStrictEqual(solved, { kind: 'optimal', objective: makespan, bound: makespan })
  })

test('B1: what was the best found is proven to be the best there is', async () => {
  const { instance, best } = JSON.parse(
    readFileSync(join(import.meta.dirname, '../reference/plans/B1.json'), 'utf8'),
  ) as { readonly instance: unknown; readonly best: unknown }
  const answer = await planInBackground(PlanInstance.parse(instance), { seconds: 600, seed: 1 })
  assert.equal(answer.status, 'optimal')
  assert.deepEqual(answer.objective, best)
})

for (const [kind, seconds] of [
  ['1 × 6', 60],
  ['2 × 6', 120],
] as const)
  test(`ten days of ${kind} cases: each is proven`, async () => {
    for (let seed = 101; seed <= 110; seed += 1) {
      const day = seededDay(kind, seed)
      const answer = await planInBackground(day, { seconds, seed: 1 })
      assert.equal(answer.status, 'optimal', `seed ${seed}`)
      assert.deepEqual(checkPlan(day, answer.schedule ?? assert.fail()), [])
    }
  })

test('C1, a full day of four theatres: a plan no worse than the best known, with how far it may be from the best there is', async () => {
  const { instance, best } = JSON.parse(
    readFileSync(join(import.meta.dirname, '../reference/plans/C1.json'), 'utf8'),
  ) as { readonly instance: unknown; readonly best: PlanObjective }
  const day = PlanInstance.parse(instance)
  const answer = await planInBackground(day, { seconds: 120, seed: 1 })
  assert.ok(answer.schedule !== null && answer.bound !== null)
  assert.deepEqual(checkPlan(day, answer.schedule), [])
  assert.ok(compareObjectives(answer.objective, best) <= 0, JSON.stringify(answer.objective))
  assert.ok(compareObjectives(answer.bound, answer.objective) <= 0)
  assert.ok(answer.rungs.some(({ name }) => name === 'sets'))
})
