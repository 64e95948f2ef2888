import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import { Instant, instant } from '#road/instant.ts'
import type { PlanOfDay, SimulationOfDay, UnitState } from '#service/api-types.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { keep, openWoundUnit, surgeon } from '../support/wound-store.ts'
import { present } from './hand.ts'

/* A day of two cases and one theatre, made from the record, planned, changed by hand, kept and planned again. */

const now = Date.parse(present)
const tomorrow = instant(now + 86_400_000).slice(0, 10)
const at = (clock: string) => Instant.parse(`${tomorrow}T${clock}:00.000Z`)
let service: RunningService

async function book(key: string, clock: string, category: 'cholecystectomy' | 'inguinalHernia'): Promise<void> {
  await keep(service, 'case-booked', Instant.parse(present), {
    case: `case:${key}`,
    patient: 'P-1',
    procedure: category === 'cholecystectomy' ? 'Laparoscopic cholecystectomy' : 'Groin hernia',
    category,
    theatre: 'Theatre 1',
    plannedAt: at(clock),
    surgeon: surgeon.id,
    implantPlanned: false,
  })
}

before(async () => {
  service = await runService({ now: () => Instant.parse(present) })
  await openWoundUnit(service, now, [3, 5, 7, 9, 11, 13])
  await book('gall', '08:00', 'cholecystectomy')
  await book('hernia', '09:30', 'inguinalHernia')
})

after(async () => {
  await service.close()
})

async function plan(body?: unknown): Promise<PlanOfDay> {
  const answer = await (body === undefined
    ? service.ask('GET', `/api/plan/${tomorrow}?seconds=1`)
    : service.ask('POST', `/api/plan/${tomorrow}`, body))
  assert.equal(answer.status, 200, JSON.stringify(answer.body))
  return answer.body as PlanOfDay
}

test('the day is planned from the record: the clean case first, with what each number came from', async () => {
  const answer = await plan()
  // Six gall bladders of one hour each are on record; of hernias there is none.
  const minutes = new Map(answer.cases.map((one) => [one.id, one.minutes]))
  assert.deepEqual([minutes.get('gall')?.minutes, minutes.get('gall')?.from], [60, 'surgeonAndProcedure'])
  assert.deepEqual([minutes.get('hernia')?.minutes, minutes.get('hernia')?.from], [90, 'default'])
  assert.ok(answer.findings.some(({ says }) => /hernia: not evaluable: no duration on record/.test(says)))
  assert.equal(answer.plan?.status, 'optimal')
  // The theatre opens at 08:00 by default; 90 min and the turnover of 20 later the second case begins.
  assert.deepEqual(answer.plan?.schedule?.cases, {
    gall: { theatre: 'Theatre 1', start: 590 },
    hernia: { theatre: 'Theatre 1', start: 480 },
  })
  assert.deepEqual(
    answer.why?.holds.map(({ case: one, by }) => [one, by]),
    [
      ['hernia', 'opening'],
      ['gall', 'theatre'],
    ],
  )
  assert.equal(answer.charts.plan?.theatres[0]?.bars.filter(({ kind }) => kind === 'case').length, 2)
})

test('an order of one’s own is held against the best at once: what it breaks and what it costs', async () => {
  const order = ['gall', 'hernia'].map((one) => ({ case: one, theatre: 'Theatre 1' }))
  const { given } = await plan({ order, seconds: 1 })
  assert.deepEqual(given?.broken, [])
  assert.deepEqual([given?.against?.inversions, given?.against?.overtime], [1, 0])
  assert.deepEqual(
    given?.against?.changes.map(({ says }) => says),
    ['gall begins 110 min earlier, at 08:00.', 'hernia begins 80 min later, at 09:20.'],
  )
  const late = await plan({ order, locks: [{ case: 'hernia', start: 480 }], seconds: 1 })
  assert.ok(late.given?.broken.some((says) => /hernia starts after its latest time/.test(says)))
})

test('a kept list is planned again with the least disturbance when a case is added', async () => {
  const { startsAt, plan: best } = await plan()
  assert.ok(best !== null && best.schedule !== null)
  const place = (minute: number) => instant(Date.parse(startsAt) + minute * 60_000)
  await keep(service, 'list-planned', Instant.parse(present), {
    list: `list:${tomorrow}`,
    day: tomorrow,
    because: 'planned',
    status: 'optimal',
    objective: { ...best.objective },
    bound: { ...best.bound },
    cases: Object.entries(best.schedule.cases).map(([id, { theatre, start }]) => ({
      case: `case:${id}` as const,
      theatre,
      startAt: place(start),
      endsAt: place(start + (id === 'gall' ? 60 : 90)),
    })),
    breaks: [],
    notes: [],
  })
  await book('second', '12:00', 'cholecystectomy')
  const { replanned, kept } = await plan({ replan: true, seconds: 1 })
  assert.equal(kept?.plan?.cases.length, 2)
  assert.deepEqual(
    replanned?.changes.map(({ says }) => says),
    ['second is new: Theatre 1 at 11:10.'],
  )
  assert.deepEqual([replanned?.moved, replanned?.shifted], [0, 0])
})

test('hours that are set and a place that is fixed change the plan', async () => {
  const state = (await service.ask('GET', '/api/unit')).body as UnitState
  await keep(service, 'hours-set', Instant.parse(present), {
    unit: state.state === 'open' ? state.unit.id : 'unit:none',
    hours: { kind: 'theatre', theatre: 'Theatre 1', opens: '07:00', closes: '15:00', mustClose: '16:00' },
  })
  await keep(service, 'case-locked', Instant.parse(present), {
    case: 'case:gall',
    startAt: at('07:00'),
    why: 'From far',
  })
  const { instance, plan: fixed } = await plan()
  assert.equal(instance?.theatres[0]?.open, 420)
  assert.equal(fixed?.schedule?.cases['gall']?.start, 420)
})

test('the plan is run many times with the durations of the record, and each purchase has its saving', async () => {
  const path = `/api/plan/${tomorrow}/simulate`
  const { status, body } = await service.ask('POST', path, { runs: 500, seconds: 0.5 })
  assert.equal(status, 200, JSON.stringify(body))
  const { simulated, savings, withoutSpread } = body as SimulationOfDay
  // All gall bladders on record took one hour, so only the hernia, which is not on record, has no spread.
  assert.deepEqual(withoutSpread, ['hernia'])
  assert.deepEqual(simulated?.onTime, { share: 1, standardError: 0 })
  // No set and no machine is on record: more staff save nothing, as each line says with its proof.
  assert.deepEqual(
    savings.map(({ kind, minutes, proven }) => [kind, minutes.mean, proven]),
    [
      ['staff', 0, true],
      ['staff', 0, true],
    ],
  )
})
