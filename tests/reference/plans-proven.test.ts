import assert from 'node:assert/strict'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { test } from 'node:test'
import { z } from 'zod'
import { planInBackground } from '#service/planning/plan-in-background.ts'
import { checkPlan } from '#workings/planning/check-plan.ts'
import { PlanInstance } from '#workings/planning/instance.ts'

/*
 * The same days as in plans.test.ts, here with the solver: what was proven elsewhere, level by level, is proven here too.
 * B1 and C1, which take longer, are in tests/long.
 */

const Objective = z.object({ inversions: z.int(), overtime: z.int(), occupied: z.int() })
const Day = z.object({ instance: PlanInstance, optimum: z.unknown().optional() })

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
