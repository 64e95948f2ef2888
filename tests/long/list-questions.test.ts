import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { KnownOf } from '#road/known.ts'
import type { SubjectId } from '#road/subject.ts'
import type { KnownPage, PlanOfDay } from '#service/api-types.ts'
import { withDemonstration } from '../support/demonstration-store.ts'
import { bookMore, bookingOn, nextList, openList, recordOn } from '../support/list-day.ts'
import { isSettled, violationsOf } from '../support/page-check.ts'
import type { RunningService } from '../support/running-service.ts'
import { noTroubles, openScreen, workAs } from '../support/screen.ts'

/* What is asked of a list besides its plan and takes a search: chances, a plan that is refused; and what an open list follows. */

const demonstration = withDemonstration()

const wide = { width: 1280, height: 1000 }

test('the plan is run many times: chances with their errors, each theatre’s end, and what one more would save', async () => {
  await using service = await demonstration.open()
  const plan = await nextList(service)
  await using screen = await openScreen(demonstration.browser, service.url, { size: wide })
  const { page } = screen
  await openList(page, plan.day)
  const chances = page.getByRole('region', { name: 'Chances, and what one more would buy' })
  await chances.getByRole('button', { name: 'Run it' }).click()
  await chances.getByText('Running…').waitFor()
  // Asked and left: the answer must not come after all.
  await chances.getByRole('button', { name: 'Stop', exact: true }).click()
  await chances.getByRole('button', { name: 'Run it' }).waitFor()
  assert.equal(await chances.getByRole('table').count(), 0)
  await chances.getByRole('button', { name: 'Run it' }).click()
  const ends = chances.getByRole('table', { name: 'When each theatre ends' })
  await ends.waitFor({ timeout: 120_000 })
  const theatres = plan.instance?.theatres.map(({ id }) => id) ?? []
  assert.deepEqual(await ends.getByRole('rowheader').allTextContents(), theatres)
  assert.match(await chances.innerText(), /Chance that every list ends by closing\s+\d+\.\d % ± \d+\.\d %/)
  const savings = chances.getByRole('table', { name: 'What one more would save, the most first' })
  const minutes = (await savings.locator('tbody td:nth-child(2)').allInnerTexts()).map((text) =>
    Number.parseFloat(text),
  )
  assert.ok(minutes.length > 3, 'a line for each purchase')
  assert.deepEqual(
    minutes,
    minutes.toSorted((a, b) => b - a),
  )
  noTroubles(screen)
})

test('a list with an implant that nobody decided is refused, and kept once it is decided', async () => {
  await using service = await demonstration.open()
  const plan = await nextList(service)
  const booking = bookingOn(plan, 'mesh', {
    minute: 900,
    procedure: 'Bowel repair with mesh',
    category: 'other',
    implantPlanned: true,
    forPlan: { minutes: 30, woundClass: 'III', sets: {} },
  })
  await recordOn(service, plan, 'case-booked', booking)
  await using screen = await openScreen(demonstration.browser, service.url, { size: wide })
  const { page } = screen
  await workAs(page, 'Imre Castellan')
  await openList(page, plan.day)
  const keep = page.getByRole('region', { name: 'Keep a plan' })
  await keep.getByText('The rules stand against this:').waitFor()
  await keep.getByText(/^Stop\. ?mesh: an implant is planned where the wound will not be clean/).waitFor()
  const press = keep.getByRole('button', { name: 'Keep this plan' })
  assert.ok(await press.isDisabled())
  assert.equal(await keep.getByText('Decide in spite of a rule').count(), 0, 'no exception is allowed')
  await recordOn(service, plan, 'implant-decided', { case: 'case:mesh', outcome: 'implant', why: 'No other repair' })
  await keep.getByText('The rules stand against this:').waitFor({ state: 'detached' })
  await press.click()
  await keep.getByText(/^A plan was kept/).waitFor()
  noTroubles(screen)
})

test('a day that cannot be says which sets are short, and what would relieve it', async () => {
  await using service = await demonstration.open()
  const plan = await nextList(service)
  const booking = bookingOn(plan, 'many', { minute: 500, forPlan: { minutes: 60, sets: { Telescope: 20 } } })
  await recordOn(service, plan, 'case-booked', booking)
  await using screen = await openScreen(demonstration.browser, service.url, { size: wide })
  const { page } = screen
  await page.goto(`/list/${plan.day}`)
  const good = page.getByRole('region', { name: 'How good the plan is' })
  await good.getByText('There is no plan for this day.').waitFor()
  await good
    .getByRole('alert')
    .getByText(/^Too few Telescope: \d+ uses, \d units\./)
    .waitFor()
  await good.getByRole('heading', { name: 'What would relieve it, the cheapest first' }).waitFor()
  await isSettled(page)
  assert.deepEqual(await violationsOf(page), [])
  noTroubles(screen)
})

/** A load that has a set on the shelf which the plan counts on. */
async function loadOnShelf(
  service: RunningService,
  { findings }: PlanOfDay,
): Promise<{ readonly load: SubjectId<'load'>; readonly name: string }> {
  const { body } = await service.ask('GET', '/api/known?kind=round&standing=onShelf&limit=200')
  for (const { state: round } of (body as KnownPage<'round'>).rows) {
    if (round.set === null) continue
    // oxlint-disable-next-line no-await-in-loop
    const { body: known } = await service.ask('GET', `/api/known/${encodeURIComponent(round.set)}`)
    const set = (known as { readonly state: KnownOf<'set'> }).state
    const counted = !findings.some(({ says }) => says.startsWith(`${set.name} is not counted on`))
    if (counted && round.load !== null && set.round?.id === round.id) return { load: round.load.id, name: set.name }
  }
  assert.fail('the demonstration has a set on the shelf')
}

test('an open list follows a set, a load and a machine as they change', async () => {
  await using service = await demonstration.open()
  const plan = await nextList(service)
  const sets = { Retractors: 1 }
  await recordOn(
    service,
    plan,
    'case-booked',
    bookingOn(plan, 'new', { minute: 900, forPlan: { minutes: 30, woundClass: 'II', sets } }),
  )
  await using screen = await openScreen(demonstration.browser, service.url, { size: wide })
  const { page } = screen
  await openList(page, plan.day)
  const rests = page.getByRole('list', { name: 'What the plan rests on' })
  const said = (text: string | RegExp) => rests.getByRole('listitem').filter({ hasText: text })
  const unknown = said('new: its booking names sets "Retractors", which the unit does not have.')
  await unknown.waitFor()
  const device = await aDevice(service)
  await recordOn(service, plan, 'set-registered', {
    set: 'set:retractors',
    name: 'Retractors 1',
    // No other set has this sheet: it would be one more of its type.
    countSheet: [{ device, count: 7 }],
  })
  await unknown.waitFor({ state: 'detached' })

  const { machine, says } = await aMachineBeside(service)
  const out = said(`${says} is out of service and is not planned with: The door leaks`)
  assert.equal(await out.count(), 0)
  await recordOn(service, plan, 'machine-withdrawn', { machine, why: 'The door leaks' })
  await out.waitFor()

  const { load, name } = await loadOnShelf(service, plan)
  const lost = said(`${name} is not counted on: `)
  assert.equal(await lost.count(), 0)
  const grown = {
    load,
    lot: 'B-1',
    result: 'growth',
    control: { lot: 'B-1', result: 'growth' },
    incubatedHours: 48,
  } as const
  await recordOn(service, plan, 'biological-read', grown)
  // The sets of a whole load fall away: where the day lacks them, the reasons are looked for first.
  await lost.waitFor({ timeout: 90_000 })
  noTroubles(screen)
})

async function aDevice(service: RunningService): Promise<SubjectId<'device'>> {
  const { body } = await service.ask('GET', '/api/known?kind=device&standing=registered&limit=1')
  return (body as KnownPage<'device'>).rows[0]?.state.id ?? assert.fail('a device is registered')
}

/** A machine that no set has to pass: without it the day is planned as before, and its absence is told. */
async function aMachineBeside(
  service: RunningService,
): Promise<{ readonly machine: SubjectId<'machine'>; readonly says: string }> {
  const { body } = await service.ask('GET', '/api/known?kind=machine&standing=inService&limit=200')
  const beside = (body as KnownPage<'machine'>).rows.find(({ state }) => state.type === 'ultrasonicBath')?.state
  return beside === undefined
    ? assert.fail('an ultrasonic bath is in service')
    : { machine: beside.id, says: beside.name }
}

test('a plan is answered while a simulation runs', async () => {
  await using service = await demonstration.open()
  const plan = await nextList(service)
  await bookMore(service, plan)
  const gone = new AbortController()
  let simulated = false
  const simulation = fetch(`${service.url}/api/plan/${plan.day}/simulate`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    // Each of a dozen plans of this day is looked for to the end of its ten seconds.
    body: JSON.stringify({ seconds: 10 }),
    signal: gone.signal,
  }).then(
    () => (simulated = true),
    () => 'left',
  )
  for (const path of [`/api/plan/${plan.day}?seconds=1`, `/api/plan/${plan.day}?seconds=0.5`]) {
    // oxlint-disable-next-line no-await-in-loop
    const { status, body } = await service.ask('GET', path)
    assert.equal(status, 200)
    assert.ok((body as PlanOfDay).plan?.schedule !== null)
  }
  assert.ok(!simulated, 'the simulation still runs')
  gone.abort()
  assert.equal(await simulation, 'left')
  assert.deepEqual(service.log, [])
})
