import assert from 'node:assert/strict'
import { test } from 'node:test'
import { checkPlan } from './check-plan.ts'
import { PlanInstance } from './instance.ts'
import { planDay } from './plan-day.ts'
import { planDayWorking } from './plan-day-working.ts'
import { purchasesOf } from './purchases.ts'
import { withRoute } from './quicker-routes.ts'

/** Two cases with one set that comes back by steam after 75 min, or by a gas after 45 min; the theatre must close before steam is done. */
const base = PlanInstance.parse((planDayWorking.example.input as { day: unknown }).day)
const day: PlanInstance = {
  ...base,
  theatres: [{ id: 'T1', open: 30, close: 200, hardClose: 220 }],
  setTypes: base.setTypes.map((type) => ({ ...type, otherRoutes: ['gas', 'long gas'] })),
  routes: {
    ...base.routes,
    gas: [...(base.routes['steam']?.slice(0, 1) ?? []), { name: 'gas', kind: 'batch', pool: 'gas' }],
    'long gas': [...(base.routes['steam'] ?? []), { name: 'air', kind: 'delay', dur: 60 }],
  },
  pools: [...base.pools, { id: 'gas', kind: 'batch', count: 1, cap: 2, dur: 30, from: 0, to: 900 }],
}

test('a day that only a quicker allowed way saves says so first: nothing has to be bought', () => {
  const answer = planDay(day, { seed: 1, decodes: 500 })
  assert.ok(answer.schedule === null)
  assert.deepEqual(answer.reliefs[0], {
    kind: 'fasterRoute',
    type: 'LAP',
    route: 'gas',
    says: 'It can be done if LAP goes by gas, which it is allowed to and which is 30 min quicker.',
  })
  assert.equal(answer.reliefs.filter(({ kind }) => kind === 'fasterRoute').length, 1, 'the longer way is no relief')
  const relieved = withRoute(day, 'LAP', 'gas')
  const { schedule } = planDay(relieved, { seed: 1, decodes: 500 })
  assert.ok(schedule !== null)
  assert.deepEqual(checkPlan(relieved, schedule), [])
})

test('a quicker way is tried as a purchase only where the catalogue names one; a run is never just made shorter', () => {
  const kinds = (of: PlanInstance) =>
    purchasesOf(of).flatMap(({ kind, says }) => (kind === 'fasterRoute' ? [says] : []))
  assert.deepEqual(kinds(day), ['LAP by gas too, 30 min quicker'])
  assert.deepEqual(kinds(base), [])
  // Two sets for two cases: none comes back, and no way has to be quicker.
  assert.deepEqual(kinds({ ...day, setTypes: day.setTypes.map((type) => ({ ...type, units: 2 })) }), [])
})

test('another way that the day does not have is refused by name', () => {
  const wrong = PlanInstance.safeParse({ ...day, setTypes: day.setTypes.map((t) => ({ ...t, otherRoutes: ['air'] })) })
  assert.equal(wrong.error?.issues[0]?.message, 'routes of this day')
  assert.deepEqual(wrong.error?.issues[0]?.path, ['setTypes', 0, 'otherRoutes'])
})
