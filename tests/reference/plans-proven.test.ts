import assert from 'node:assert/strict'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { test } from 'node:test'
import { z } from 'zod'
import { planInBackground } from '#service/planning/plan-in-background.ts'
import { checkPlan } from '#workings/planning/check-plan.ts'
import { PlanInstance } from '#workings/planning/instance.ts'
import { compareObjectives } from '#workings/planning/plan-schedule.ts'

/*
 * The same days as in plans.test.ts, here with the solver: what was proven elsewhere, level by level, is proven here too.
 * B1, which takes longer, is proven in tests/long.
 */

const Objective = z.object({ inversions: z.int(), overtime: z.int(), occupied: z.int() })
const Day = z.object({ instance: PlanInstance, optimum: z.unknown().optional(), best: Objective.optional() })

function dayOf(name: string) {
  return Day.parse(JSON.parse(readFileSync(join(import.meta.dirname, 'plans', `${name}.json`), 'utf8')))
}

for (const name of ['R1', 'A1', 'A2', 'A3', 'A5', 'A7', 'R2', 'B4'])
  test(`${name}: the published optimum is found and proven`, async () => {
    const { instance, optimum } = dayOf(name)
    const answer = await planInBackground(instance, { seconds: 240, seed: 1 })
    assert.equal(answer.status, 'optimal')
    const wanted = Objective.parse(optimum)
    assert.deepEqual(answer.objective, wanted)
    assert.deepEqual(answer.bound, wanted)
    assert.deepEqual(checkPlan(instance, answer.schedule ?? assert.fail()), [])
  })

test('R7: proven that there is no plan; one more FLEX is the cheapest relief', async () => {
  const answer = await planInBackground(dayOf('R7').instance, { seconds: 60, seed: 1 })
  assert.equal(answer.status, 'infeasible')
  assert.ok(answer.status === 'infeasible')
  assert.partialDeepStrictEqual(answer.reliefs[0], { kind: 'units', units: { FLEX: 1 } })
})

test('C1, a full day of four theatres: a plan no worse than the best known, with how far it may be from the best there is', async () => {
  const { instance, best } = dayOf('C1')
  // Work is counted, not time, so that a slow machine gives the same plan.
  const work = { decodes: 25_000, solver: 2 }
  const answer = await planInBackground(instance, { seconds: 3600, seed: 1, work })
  assert.ok(answer.schedule !== null && answer.bound !== null && best !== undefined)
  assert.deepEqual(checkPlan(instance, answer.schedule), [])
  assert.ok(compareObjectives(answer.objective, best) <= 0, JSON.stringify(answer.objective))
  assert.ok(compareObjectives(answer.bound, answer.objective) <= 0)
  assert.deepEqual(
    answer.rungs.map(({ name }) => name).filter((name, index, all) => all.indexOf(name) === index),
    answer.rungs.map(({ name }) => name),
  )
})
