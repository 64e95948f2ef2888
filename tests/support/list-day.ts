import assert from 'node:assert/strict'
import type { Page } from 'playwright-core'
import { v7 } from 'uuid'
import { instant } from '#road/instant.ts'
import type { Bodies, KindName } from '#road/kinds.ts'
import type { KnownPage, PlanOfDay, UnitState } from '#service/api-types.ts'
import { isSettled } from './page-check.ts'
import type { RunningService } from './running-service.ts'

/** The first day after today on which cases are booked, by the calendar of the unit, with its plan as the API gives it. */
export async function nextList(service: RunningService): Promise<PlanOfDay> {
  const { body } = await service.ask('GET', '/api/known?kind=case&standing=booked&limit=200')
  const { body: state } = await service.ask('GET', '/api/unit')
  const timeZone = (state as Extract<UnitState, { state: 'open' }>).unit.timeZone
  const dayOf = (at: string): string => new Date(at).toLocaleDateString('sv-SE', { timeZone })
  const today = dayOf(new Date().toISOString())
  const days = (body as KnownPage<'case'>).rows.map(({ state: known }) => dayOf(known.booked?.plannedAt ?? ''))
  const [day] = days.filter((each) => each > today).sort()
  assert.ok(day !== undefined, 'the demonstration has a case booked for a later day')
  const { status, body: plan } = await service.ask('GET', `/api/plan/${day}?seconds=2`)
  assert.equal(status, 200)
  return plan as PlanOfDay
}

/** The cases of a theatre in the order in which the page lists them. */
export async function orderIn(page: Page, theatre: string): Promise<readonly string[]> {
  const table = page.getByRole('region', { name: theatre, exact: true }).getByRole('table')
  return await table.getByRole('rowheader').locator('.key').allTextContents()
}

export async function openList(page: Page, day: string): Promise<void> {
  await page.goto(`/list/${day}`)
  await page.getByRole('region', { name: 'How good the plan is' }).waitFor()
  await isSettled(page)
  // A better plan that comes while a case is held would move the chart under the pointer.
  await page.getByRole('button', { name: 'Stop looking' }).waitFor({ state: 'detached' })
}

/** Records something for the unit; in the name of the first surgeon of the day. */
export async function recordOn<K extends KindName>(
  service: RunningService,
  { instance }: Pick<PlanOfDay, 'instance'>,
  kind: K,
  ...bodies: readonly Bodies[K][]
): Promise<void> {
  const { body: state } = await service.ask('GET', '/api/unit')
  const { site } = state as Extract<UnitState, { state: 'open' }>
  const by = `person:${instance?.cases[0]?.surgeon ?? ''}`
  const happenedAt = new Date().toISOString()
  const entries = bodies.map((body) => ({ id: v7(), site, kind, happenedAt, by, workstation: 'Ward office', body }))
  const { status, body } = await service.ask('POST', '/api/entries', entries)
  assert.equal(status, 200)
  for (const each of body as readonly { readonly outcome: string }[])
    assert.equal(each.outcome, 'kept', JSON.stringify(body))
}

/** A booking of the day that says all that the planner asks for. */
export function bookingOn(
  { startsAt, instance }: PlanOfDay,
  key: string,
  more: { readonly minute: number } & Partial<Bodies['case-booked']>,
): Bodies['case-booked'] {
  const { minute, ...own } = more
  return {
    case: `case:${key}`,
    patient: `P-${key}`,
    procedure: 'Diagnostic laparoscopy',
    category: 'diagnosticLaparoscopy',
    theatre: instance?.theatres[0]?.id ?? '',
    plannedAt: instant(Date.parse(startsAt) + minute * 60_000),
    surgeon: `person:${instance?.cases[0]?.surgeon ?? ''}`,
    implantPlanned: false,
    ...own,
  }
}

/** Books five more cases of the day with three sets each, of which there are six: sets serve twice, and the line is full. */
export async function bookMore(service: RunningService, plan: PlanOfDay): Promise<void> {
  const surgeons = [...new Set(plan.instance?.cases.map(({ surgeon }) => surgeon))]
  const bookings = Array.from({ length: 5 }, (_, n) =>
    bookingOn(plan, `more-${n}`, {
      minute: 480 + n * 45,
      theatre: plan.instance?.theatres[n % 2]?.id ?? '',
      surgeon: `person:${surgeons[n % surgeons.length] ?? ''}`,
      forPlan: { minutes: 40 + n, sets: { 'Laparoscopy basic': 1, Ports: 1, Telescope: 1 } },
    }),
  )
  await recordOn(service, plan, 'case-booked', ...bookings)
}
