import assert from 'node:assert/strict'
import { after, test } from 'node:test'
import * as fc from 'fast-check'
import { bruteForce } from '#workings/planning/brute-force.suite.ts'
import { checkPlan } from '#workings/planning/check-plan.ts'
import { PlanInstance, wounds } from '#workings/planning/instance.ts'
import { planBound } from '#workings/planning/plan-bound.ts'
import { planDay } from '#workings/planning/plan-day.ts'
import { modelOf } from '#workings/planning/plan-model.ts'
import { objectiveOf } from '#workings/planning/plan-objective.ts'
import { compareObjectives } from '#workings/planning/plan-schedule.ts'
import { PlanStanding } from '#workings/planning/plan-standing.ts'
import { randomDay } from '#workings/planning/random-day.suite.ts'
import { constraintSolver } from '../solver/constraint-solver.ts'
import { provePlan } from './prove-plan.ts'

const solver = constraintSolver()
after(() => solver.close())

/** Everything in half hours, so that all of a day can be tried. */
const tinyDay: fc.Arbitrary<PlanInstance> = fc
  .record({
    theatres: fc.integer({ min: 1, max: 2 }),
    cases: fc.array(
      fc.record({
        dur: fc.constantFrom(30, 60),
        wound: fc.constantFrom(...wounds),
        implant: fc.boolean(),
        surgeon: fc.constantFrom('S1', 'S2'),
        both: fc.boolean(),
        a: fc.integer({ min: 0, max: 2 }),
        b: fc.integer({ min: 0, max: 1 }),
      }),
      { minLength: 2, maxLength: 3 },
    ),
    a: fc.integer({ min: 1, max: 2 }),
    late: fc.constantFrom(0, 0, 60, 150),
    cap: fc.integer({ min: 1, max: 2 }),
    short: fc.boolean(),
  })
  .map(({ theatres, cases, a, late, cap, short }) =>
    PlanInstance.parse({
      horizon: 480,
      theatres: Array.from({ length: theatres }, (_, index) => ({
        id: `T${index}`,
        open: 0,
        close: 90,
        hardClose: 240,
      })),
      turnover: { standard: 0, dirty: 30, infectious: 30 },
      surgeonGap: 0,
      cases: cases.map(({ both, a, b, ...one }, index) => ({
        id: `C${index}`,
        ...one,
        infectious: false,
        theatres: theatres > 1 && both ? ['T0', 'T1'] : ['T0'],
        needs: { A: a, B: b },
      })),
      setTypes: [
        { id: 'A', units: a, size: 1, lead: 0, routes: short ? ['long', 'short'] : ['long'] },
        { id: 'B', units: 1, size: 1, lead: 0, routes: ['long'], avail: [late] },
      ],
      routes: {
        long: [
          { name: 'wash', kind: 'staff', pool: 'bench', dur: 30 },
          { name: 'steam', kind: 'batch', pool: 'steam' },
        ],
        short: [{ name: 'bath', kind: 'staff', pool: 'bench', dur: 90 }],
      },
      pools: [
        { id: 'bench', kind: 'staff', count: 1, from: 0, to: 480 },
        { id: 'steam', kind: 'batch', count: 1, cap, dur: 30, from: 60, to: 480 },
      ],
    }),
  )

async function proven(day: PlanInstance) {
  const model = modelOf(day)
  const bound = planBound(model)
  if (bound.kind === 'infeasible') return null
  const standing = new PlanStanding(day, bound.bound)
  const verdict = await provePlan(model, standing, solver, {
    seed: 1,
    secondsLeft: () => 60,
    work: 30,
    onPlan: () => {},
  })
  if (verdict === 'impossible') return null
  assert.ok(standing.isProven, JSON.stringify({ bound: standing.bound, best: standing.best?.objective }))
  return standing
}

test('the proven optimum of a tiny day is the best of all that can be tried, and where nothing can be, it is proven', async () => {
  let withPlan = 0
  let without = 0
  await fc.assert(
    fc.asyncProperty(tinyDay, async (day) => {
      const best = bruteForce(day, 30)
      const standing = await proven(day)
      assert.deepEqual(standing?.best?.objective ?? null, best)
      if (best === null) without += 1
      else withPlan += 1
    }),
    { numRuns: 60, seed: 20_261_125 },
  )
  assert.ok(withPlan > 20 && without > 3, `${withPlan} with a plan, ${without} without`)
})

test('a proven plan of a small random day keeps every rule, and neither search nor own bound contradict it', async () => {
  await fc.assert(
    fc.asyncProperty(randomDay, async (day) => {
      const standing = await proven(day)
      const searched = planDay(day, { seed: 5, decodes: 300 })
      if (standing?.best === undefined) {
        assert.equal(searched.schedule, null)
        return
      }
      const { schedule, objective } = standing.best
      assert.deepEqual(checkPlan(day, schedule), [])
      assert.deepEqual(objectiveOf(day, schedule), objective)
      if (searched.schedule !== null) assert.ok(compareObjectives(objective, searched.objective) <= 0)
      if (searched.bound !== null) assert.ok(compareObjectives(searched.bound, objective) <= 0)
      // No rung passes the optimum.
      for (const { bound } of standing.rungs) assert.ok(compareObjectives(bound, objective) <= 0)
    }),
    { numRuns: 60 },
  )
})
