import assert from 'node:assert/strict'
import { join } from 'node:path'
import { test } from 'node:test'
import { pathToFileURL } from 'node:url'
import { checkPlan } from '#workings/planning/check-plan.ts'
import { PlanInstance } from '#workings/planning/instance.ts'
import { planDayWorking } from '#workings/planning/plan-day-working.ts'
import { compareObjectives, type PlanObjective } from '#workings/planning/plan-schedule.ts'
import { type BackgroundAnswer, planInBackground } from './plan-in-background.ts'

const { day: example } = planDayWorking.example.input as { day: unknown }
const easy = PlanInstance.parse(example)
const base = {
  ...easy,
  theatres: [
    { id: 'T1', open: 30, close: 240, hardClose: 900 },
    { id: 'T2', open: 30, close: 240, hardClose: 900 },
  ],
}
/** Two theatres that share three sets: the bound of the list alone does not reach the plan. */
const shared: PlanInstance = {
  ...base,
  cases: Array.from({ length: 6 }, (_, index) => ({
    ...(easy.cases[0] ?? assert.fail()),
    id: `C${index}`,
    dur: 40 + 5 * index,
    surgeon: `S${index % 3}`,
    theatres: index % 4 === 3 ? ['T1', 'T2'] : [index % 2 === 0 ? 'T1' : 'T2'],
  })),
  setTypes: [{ id: 'LAP', units: 3, size: 2, lead: 10, routes: ['steam'] }],
}

test('a plan is proven where the own bound is not enough; plans only get better and bounds only rise on the way', async () => {
  const told: BackgroundAnswer[] = []
  const answer = await planInBackground(shared, { seconds: 60, seed: 1, onPlan: (each) => told.push(each) })
  assert.equal(answer.status, 'optimal')
  assert.ok(answer.schedule !== null)
  assert.deepEqual(checkPlan(shared, answer.schedule), [])
  assert.deepEqual(answer.bound, answer.objective)
  assert.ok(told.length > 0)
  for (const [index, next] of told.slice(1).entries()) {
    assert.ok(compareObjectives(next.objective ?? worst, told[index]?.objective ?? worst) <= 0)
    assert.ok(compareObjectives(next.bound ?? worst, told[index]?.bound ?? worst) >= 0)
  }
  assert.ok(
    answer.rungs.some(
      ({ name, says }) => name === 'loads' && says.includes(`${answer.objective?.overtime} min overtime`),
    ),
  )
})
/** Limits that no clock can reach first. */
const work = { decodes: 500, solver: 20 }
const worst: PlanObjective = { inversions: 1e9, overtime: 1e9, occupied: 1e9 }

test('without the package of the solver the day is planned with the own bound, and it is said why', async () => {
  const missing = pathToFileURL(join(import.meta.dirname, 'no-such-package', 'solver.js')).href
  const answer = await planInBackground(shared, { seconds: 600, seed: 1, work, solverPackage: missing })
  assert.equal(answer.status, 'feasible')
  assert.ok(answer.schedule !== null && answer.bound !== null)
  assert.deepEqual(checkPlan(shared, answer.schedule), [])
  assert.match(answer.withoutSolver ?? '', /no-such-package/)
  const alone = await planInBackground(easy, { seconds: 600, seed: 1, work, solverPackage: missing })
  assert.equal(alone.status, 'optimal')
})

test('a signal ends it at once, with the best so far', async () => {
  const stop = new AbortController()
  const answer = await planInBackground(shared, {
    seconds: 600,
    seed: 1,
    signal: stop.signal,
    onPlan: () => stop.abort(),
  })
  assert.ok(answer.schedule !== null)
  assert.deepEqual(checkPlan(shared, answer.schedule), [])
})

test('a signal before there is a bound ends it too, and says nothing of whether there is a plan', async () => {
  const stop = new AbortController()
  const asked = planInBackground(shared, { seconds: 600, seed: 1, signal: stop.signal })
  stop.abort()
  const answer = await asked
  assert.deepEqual([answer.status, answer.schedule], ['unknown', null])
})

test('a clock that is up before anything was tried is no reason to say that no plan was found', async () => {
  // Its first order, and those near it, break the last hour.
  const full = { ...shared, theatres: base.theatres.map((theatre) => ({ ...theatre, hardClose: 300 })) }
  const answer = await planInBackground(full, { seconds: 0.001, seed: 1 })
  assert.equal(answer.status, 'feasible')
  assert.deepEqual(answer.schedule === null ? null : checkPlan(full, answer.schedule), [])
})

test('when work is counted and not time, the same day and seed give the same answer', async () => {
  const one = await planInBackground(shared, { seconds: 600, seed: 2, work })
  const other = await planInBackground(shared, { seconds: 600, seed: 2, work })
  assert.deepEqual(one, other)
  assert.equal(one.status, 'optimal')
})

test('a day that cannot be is proven so by the solver where counting is not enough, with reasons and reliefs', async () => {
  const tight = { ...shared, theatres: base.theatres.map((theatre) => ({ ...theatre, hardClose: 250 })) }
  const answer = await planInBackground(tight, { seconds: 60, seed: 1 })
  assert.equal(answer.status, 'infeasible')
  assert.ok(answer.schedule === null && answer.reasons.length > 0)
})
