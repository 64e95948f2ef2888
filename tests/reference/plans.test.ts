import assert from 'node:assert/strict'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { test } from 'node:test'
import { z } from 'zod'
import { checkPlan } from '#workings/planning/check-plan.ts'
import { PlanInstance } from '#workings/planning/instance.ts'
import { planDay } from '#workings/planning/plan-day.ts'
import { objectiveOf } from '#workings/planning/plan-objective.ts'
import { compareObjectives } from '#workings/planning/plan-schedule.ts'

/*
 * Days with a published optimum, each proven by a constraint solver level by level (R1 can also be derived by hand).
 */

const Objective = z.object({ inversions: z.int(), overtime: z.int(), occupied: z.int() })
const Day = z.object({ instance: PlanInstance, optimum: Objective.optional(), best: Objective.optional() })

function dayOf(name: string) {
  return Day.parse(JSON.parse(readFileSync(join(import.meta.dirname, 'plans', `${name}.json`), 'utf8')))
}

for (const [name, seed] of [
  ['R1', 1],
  ['A1', 1],
  ['A2', 2],
  ['A3', 3],
  ['A5', 1],
  ['A7', 3],
  ['R2', 3],
] as const)
  test(`${name}: the proven optimum is reached, and the bound never passes it`, () => {
    const { instance, optimum } = dayOf(name)
    assert.ok(optimum !== undefined)
    const answer = planDay(instance, { seed, decodes: 60_000 })
    assert.deepEqual(answer.objective, optimum)
    assert.ok(answer.schedule !== null && answer.bound !== null)
    assert.ok(compareObjectives(answer.bound, optimum) <= 0)
    // Six of seven are proven by the bound alone; A5's bound stays 5 minutes below.
    assert.equal(answer.status, name === 'A5' ? 'feasible' : 'optimal')
    assert.deepEqual(checkPlan(instance, answer.schedule), [])
    assert.deepEqual(objectiveOf(instance, answer.schedule), optimum)
  })

for (const [name, decodes] of [
  ['B1', 4000],
  ['B4', 4000],
  ['C1', 1000],
] as const)
  test(`${name}: a short search gives a sound plan with its bound`, () => {
    const { instance, optimum, best } = dayOf(name)
    const answer = planDay(instance, { seed: 1, decodes })
    assert.ok(answer.schedule !== null && answer.objective !== null && answer.bound !== null)
    assert.deepEqual(checkPlan(instance, answer.schedule), [])
    assert.equal(answer.objective.inversions, 0)
    assert.ok(compareObjectives(answer.bound, optimum ?? best ?? answer.objective) <= 0)
    if (optimum !== undefined) assert.ok(compareObjectives(optimum, answer.objective) <= 0)
  })

test('R7: three uses of a set, two units, a way of twelve hours: no plan, and one more unit is the cheapest relief', () => {
  const { instance } = Day.omit({ optimum: true }).parse(
    JSON.parse(readFileSync(join(import.meta.dirname, 'plans/R7.json'), 'utf8')),
  )
  const answer = planDay(instance, { seed: 1, decodes: 10_000 })
  assert.equal(answer.status, 'infeasible')
  assert.ok(answer.status === 'infeasible')
  assert.match(
    answer.reasons[0] ?? '',
    /^Too few FLEX: 3 uses, 2 units\. Use 3 must begin by 11:00, and none can be back before 17:10\.$/,
  )
  assert.ok(
    answer.reasons.some((reason) => /needs a FLEX set at \d\d:\d\d; all 2 are in use or in the line/.test(reason)),
  )
  assert.partialDeepStrictEqual(answer.reliefs[0], { kind: 'units', units: { FLEX: 1 } })
})
