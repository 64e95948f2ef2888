import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { PlanOfDay } from '#service/api-types.ts'
import { withDemonstration } from '../support/demonstration-store.ts'
import { Keyboard } from '../support/keyboard.ts'
import { bookMore, nextList, openList, orderIn } from '../support/list-day.ts'
import { isSettled, sticksOut, violationsOf } from '../support/page-check.ts'
import { noTroubles, openScreen, phone, workAs } from '../support/screen.ts'

/* The list of the next day of the demonstration that has cases: moved, fixed, compared, planned again, kept and printed. */

const demonstration = withDemonstration()

const wide = { width: 1280, height: 1000 }

/** A theatre with at least two cases in the plan. */
function fullTheatre(plan: PlanOfDay): string {
  const cases = Object.values(plan.plan?.schedule?.cases ?? {})
  const theatre = plan.instance?.theatres.find(({ id }) => cases.filter((each) => each.theatre === id).length > 1)
  assert.ok(theatre !== undefined, 'a theatre has two cases')
  return theatre.id
}

test('a case that is dragged shows at once what it breaks and costs, and two plans stand side by side', async () => {
  await using service = await demonstration.open()
  const plan = await nextList(service)
  await using screen = await openScreen(demonstration.browser, service.url, { size: wide })
  const { page } = screen
  await openList(page, plan.day)
  const theatre = fullTheatre(plan)
  const [first = '', second = ''] = await orderIn(page, theatre)
  const bar = (id: string) => page.locator(`svg.plan-picture [data-case="${id}"]`).first()
  await bar(first).scrollIntoViewIfNeeded()
  const from = await bar(first).boundingBox()
  const to = await bar(second).boundingBox()
  assert.ok(from !== null && to !== null)
  // Let go with its beginning past the middle of the second case: it comes after it.
  await bar(first).hover()
  await page.mouse.down()
  const y = from.y + from.height / 2
  await page.mouse.move(from.x + from.width / 2 + (to.x + to.width * 0.8 - from.x), y, { steps: 8 })
  await page.mouse.up()
  const own = page.getByRole('region', { name: 'Your own order' })
  await own.getByRole('heading', { name: 'What changes' }).waitFor()
  const moved = await orderIn(page, theatre)
  assert.ok(moved.indexOf(first) > moved.indexOf(second), `${first} comes after ${second}: ${moved.join(', ')}`)
  assert.match(await own.innerText(), new RegExp(`${first} (begins|goes)`))
  assert.match(await own.innerText(), /It breaks|It breaks nothing/)
  const compare = page.getByRole('region', { name: 'Two plans side by side' })
  assert.equal(await compare.getByRole('combobox', { name: 'One plan' }).inputValue(), 'best')
  assert.equal(await compare.getByRole('combobox', { name: 'The other' }).inputValue(), 'own')
  await compare.getByText(new RegExp(`${first} (begins|goes)`)).waitFor()
  await own.getByRole('button', { name: 'Back to the best plan' }).click()
  await own.waitFor({ state: 'detached' })
  assert.deepEqual(await orderIn(page, theatre), [first, second, ...(await orderIn(page, theatre)).slice(2)])
  noTroubles(screen)
})

test('a case is asked why it is here, fixed in the record, and the plan is kept with its cases, then planned again', async () => {
  await using service = await demonstration.open()
  const plan = await nextList(service)
  await using screen = await openScreen(demonstration.browser, service.url, { size: wide })
  const { page } = screen
  await workAs(page, 'Imre Castellan')
  await openList(page, plan.day)
  const theatre = fullTheatre(plan)
  const [first = ''] = await orderIn(page, theatre)
  const why = page.getByRole('button', { name: new RegExp(`^Why here\\?: .*\\(${first}\\)$`) })
  await why.click()
  const dialog = page.getByRole('dialog', { name: new RegExp(`^Why is .*\\(${first}\\) here\\?$`) })
  await dialog.getByText('What holds it').waitFor()
  await dialog.getByRole('table', { name: 'Every other place' }).waitFor()
  await dialog.getByText('Keep the place in the record').click()
  await dialog.getByRole('button', { name: 'Keep this place' }).click()
  await dialog.getByText(/^Recorded/).waitFor()
  await page.keyboard.press('Escape')
  const row = page.getByRole('row').filter({ has: page.getByText(first, { exact: true }) })
  await row.getByText('fixed', { exact: true }).first().waitFor()

  const keep = page.getByRole('region', { name: 'Keep a plan' })
  await keep.getByRole('button', { name: 'Keep this plan' }).click()
  await keep.getByText(/^A plan was kept/).waitFor()
  const { body } = await service.ask('GET', `/api/known/${encodeURIComponent(`list:${plan.day}`)}`)
  const kept = (body as { readonly state: { readonly plan: { readonly cases: readonly unknown[] } } }).state.plan
  assert.equal(kept.cases.length, plan.cases.length)

  const again = page.getByRole('region', { name: 'Plan again from now' })
  await again.getByRole('button', { name: 'Plan again from now' }).click()
  await again.getByText('Nothing has to change.').waitFor()
  noTroubles(screen)
})

test('the list for the wall and the sheet for the wash room say whose they are, when, and how good', async () => {
  await using service = await demonstration.open()
  const plan = await nextList(service)
  await using screen = await openScreen(demonstration.browser, service.url, { size: wide })
  const { page } = screen
  await page.emulateMedia({ media: 'print' })
  for (const sheet of ['wall', 'wash-room']) {
    /* oxlint-disable no-await-in-loop: one sheet after the other */
    await page.goto(`/list/${plan.day}/${sheet}`)
    await page.getByText('Not kept: the best plan found when this page was opened.').waitFor()
    const text = await page.locator('main').innerText()
    assert.match(text, /No plan can be better|Optimal: no plan is better/)
    assert.match(text, /It is not a certified medical device/)
    assert.ok(!text.includes('Back to the list'), 'buttons stay off the paper')
    assert.ok((await page.pdf({ format: 'A4' })).byteLength > 5000)
    if (sheet === 'wall') for (const { id } of plan.cases) assert.ok(text.includes(id), `${id} is on the wall`)
    /* oxlint-enable no-await-in-loop */
  }
  assert.ok(plan.cases.some(({ reminders }) => reminders.some(({ kind }) => kind === 'antibiotic')))
  await page.goto(`/list/${plan.day}/wall`)
  await page
    .getByText(/\d\d:\d\d to \d\d:\d\d: ?Antibiotic begun within/)
    .first()
    .waitFor()
  noTroubles(screen)
})

test('on a phone a surgeon sees the own list, and nothing sticks out', async () => {
  await using service = await demonstration.open()
  const plan = await nextList(service)
  await using screen = await openScreen(demonstration.browser, service.url, { size: phone })
  const { page } = screen
  const [one] = plan.cases
  assert.ok(one !== undefined)
  await workAs(page, one.surgeonName)
  await openList(page, plan.day)
  const mine = page.getByRole('region', { name: 'One surgeon’s list' })
  await mine.getByText(one.id, { exact: true }).waitFor()
  assert.match(await mine.innerText(), /\d\d:\d\d to \d\d:\d\d/)
  for (const path of ['', '/wall', '/wash-room']) {
    /* oxlint-disable no-await-in-loop: one page after the other */
    await page.goto(`/list/${plan.day}${path}`)
    await isSettled(page)
    assert.deepEqual(await sticksOut(page), [], path)
    /* oxlint-enable no-await-in-loop */
  }
  noTroubles(screen)
})

for (const theme of ['light', 'dark'] as const) {
  test(`by keyboard alone a case is moved, and what is shown is accessible, ${theme}`, async () => {
    await using service = await demonstration.open()
    const plan = await nextList(service)
    await using screen = await openScreen(demonstration.browser, service.url, { theme })
    const { page } = screen
    await openList(page, plan.day)
    const theatre = fullTheatre(plan)
    const [first = '', second = ''] = await orderIn(page, theatre)
    const later = page.getByRole('button', { name: new RegExp(`^Later: .*\\(${first}\\)$`) })
    await new Keyboard(page).press(later)
    const own = page.getByRole('region', { name: 'Your own order' })
    await own.getByRole('heading', { name: 'What changes' }).waitFor()
    const moved = await orderIn(page, theatre)
    assert.ok(moved.indexOf(first) > moved.indexOf(second), moved.join(', '))
    assert.deepEqual(await violationsOf(page), [])
    await page.getByRole('button', { name: new RegExp(`^Why here\\?: .*\\(${second}\\)$`) }).click()
    await page.getByRole('dialog').waitFor()
    assert.deepEqual(await violationsOf(page), [])
    noTroubles(screen)
  })
}

test('on a full day the sheet for the wash room tells what is washed first and loaded by when', async () => {
  await using service = await demonstration.open()
  const plan = await nextList(service)
  await bookMore(service, plan)
  await using screen = await openScreen(demonstration.browser, service.url, { size: wide })
  const { page } = screen
  await openList(page, plan.day)
  await page.goto(`/list/${plan.day}/wash-room`)
  const trips = page.getByRole('table', { name: 'In the order of the first work' })
  await trips.waitFor()
  assert.match(await trips.innerText(), /more-\d/)
  await page
    .getByRole('table', { name: 'Runs of the machines' })
    .getByRole('rowheader', { name: /Washer/ })
    .first()
    .waitFor()
  noTroubles(screen)
})

test('who leaves a question ends its work: the next one does not wait for it', async () => {
  await using service = await demonstration.open()
  const plan = await nextList(service)
  await bookMore(service, plan)
  const gone = new AbortController()
  const left = fetch(`${service.url}/api/plan/${plan.day}?seconds=30`, { signal: gone.signal }).then(
    () => 'answered',
    () => 'left',
  )
  // Another answer that came later says that the question has been heard.
  assert.equal((await service.ask('GET', '/api/unit')).status, 200)
  assert.equal((await service.ask('GET', '/api/unit')).status, 200)
  gone.abort()
  assert.equal(await left, 'left')
  const began = performance.now()
  const { status, body } = await service.ask('GET', `/api/plan/${plan.day}?seconds=1`)
  assert.equal(status, 200)
  assert.equal((body as PlanOfDay).plan?.status, 'feasible', 'a day that keeps the search busy to the end')
  assert.ok(performance.now() - began < 20_000, 'the answer came long before the half minute of the one that was left')
  assert.deepEqual(service.log, [])
})
