import assert from 'node:assert/strict'
import { test } from 'node:test'
import { PlanInstance } from './instance.ts'
import { planDay } from './plan-day.ts'

/* What is said when nothing but how long something keeps makes a day impossible. Worked out by hand from the day below. */

/** Two cases that share one telescope: 60 min of operation, then 10 of soak, 15 of wash, 20 in the bath and 3 of rinse. */
function dayOf(type: { lead: number; keeps: number }, bathTo: number, bounds: readonly object[]): PlanInstance {
  return PlanInstance.parse({
    horizon: 1440,
    theatres: [{ id: 'T1', open: 480, close: 960, hardClose: 1080 }],
    turnover: { standard: 20, dirty: 30, infectious: 45 },
    surgeonGap: 10,
    cases: ['A', 'B'].map((id, place) => ({
      id,
      dur: 60,
      wound: 'clean',
      implant: false,
      infectious: false,
      surgeon: 'S',
      theatres: ['T1'],
      needs: { SCOPE: 1 },
      ...bounds[place],
    })),
    setTypes: [{ id: 'SCOPE', units: 1, size: 1, routes: ['bath'], ...type }],
    routes: {
      bath: [
        { name: 'soak', kind: 'delay', dur: 10 },
        { name: 'wash', kind: 'staff', pool: 'wash room', dur: 15 },
        { name: 'immerse', kind: 'staff', pool: 'bath', dur: 20 },
        { name: 'rinse', kind: 'delay', dur: 3 },
      ],
    },
    pools: [
      { id: 'wash room', kind: 'staff', count: 1, from: 420, to: 1200 },
      { id: 'bath', kind: 'staff', count: 1, from: 420, to: bathTo },
    ],
  })
}

function reasonsOf(day: PlanInstance): readonly string[] {
  const answer = planDay(day, { seed: 1, decodes: 300 })
  assert.ok(answer.schedule === null, 'the day is impossible')
  return answer.reasons.filter((says) => !says.startsWith('It can be done'))
}

test('given a bath that closes long before the next case, then the reason says how long what came out of it would lie', () => {
  // Out of the bath at 11:40 at the latest and rinsed at 11:43; B begins at 15:00 at the earliest: 197 min.
  const day = dayOf({ lead: 10, keeps: 60 }, 700, [{ latest: 480 }, { earliest: 900 }])
  assert.deepEqual(reasonsOf(day), ['SCOPE would lie 197 min before B, and keeps for 60 min.'])
})

test('given a set that must lie ready for longer than it keeps, then that no set serves twice is proven and said at once', () => {
  const day = dayOf({ lead: 30, keeps: 20 }, 1200, [])
  assert.equal(planDay(day, { seed: 1, decodes: 1 }).status, 'infeasible')
  assert.equal(
    reasonsOf(day)[0],
    'Too few SCOPE: 2 uses, 1 units. It has to be there 30 min before its case and keeps for 20 min only, so none can serve twice.',
  )
  // Just as long is long enough: it comes out of the bath when it has to be there.
  assert.ok(planDay(dayOf({ lead: 20, keeps: 20 }, 1200, []), { seed: 1, decodes: 300 }).schedule !== null)
  // As many sets as cases: none has to serve twice.
  const [type] = day.setTypes
  assert.ok(type !== undefined)
  const enough = { ...day, setTypes: [{ ...type, units: 2 }] }
  assert.ok(planDay(enough, { seed: 1, decodes: 300 }).schedule !== null)
})
