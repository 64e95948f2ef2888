import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { KnownOf } from '#road/known.ts'
import { withDemonstration } from '../support/demonstration-store.ts'
import { bookMore, nextList, openList } from '../support/list-day.ts'
import { sticksOut, violationsOf } from '../support/page-check.ts'
import { noTroubles, openScreen, phone } from '../support/screen.ts'

/* What is asked of a list besides its plan and is soon answered; what takes a long search is asked in the long tests. */

const demonstration = withDemonstration()

test('a place is tried as fixed and freed again, and nothing of it is in the record', async () => {
  await using service = await demonstration.open()
  const plan = await nextList(service)
  const [one] = Object.keys(plan.plan?.schedule?.cases ?? {})
  assert.ok(one !== undefined)
  await using screen = await openScreen(demonstration.browser, service.url, { size: { width: 1280, height: 1000 } })
  const { page } = screen
  await openList(page, plan.day)
  await page.getByRole('button', { name: new RegExp(`^Why here\\?: .*\\(${one}\\)$`) }).click()
  const dialog = page.getByRole('dialog')
  await dialog.getByRole('button', { name: /^Try it fixed: / }).click()
  await dialog.waitFor({ state: 'detached' })
  const tried = page.getByRole('region', { name: 'Planned with places tried as fixed' })
  await tried.getByText(`Fixed for this question: ${one}.`).waitFor()
  // Where the best plan has it: it costs nothing to keep it there.
  await tried.getByText('It costs nothing against the best plan.').waitFor()
  const row = page.getByRole('row').filter({ has: page.getByText(one, { exact: true }) })
  await row.getByText('tried as fixed', { exact: true }).first().waitFor()
  assert.deepEqual(await violationsOf(page), [])
  await tried.getByRole('button', { name: 'Free them all' }).click()
  await tried.waitFor({ state: 'detached' })
  assert.equal(await page.getByText('tried as fixed', { exact: true }).count(), 0)
  const { body } = await service.ask('GET', `/api/known/${encodeURIComponent(`case:${one}`)}`)
  assert.equal((body as { readonly state: KnownOf<'case'> }).state.locked ?? null, null)
  noTroubles(screen)
})

test('a search that is stopped leaves the best plan so far, and can be begun again', async () => {
  await using service = await demonstration.open()
  const plan = await nextList(service)
  await bookMore(service, plan)
  await using screen = await openScreen(demonstration.browser, service.url, { size: { width: 1280, height: 1000 } })
  const { page } = screen
  // On a busy machine its five seconds are over before a press arrives: it is given longer, so that there is one to stop.
  await page.route(/\/api\/plan\/[\d-]+\?seconds=5$/, (route) =>
    route.continue({ url: route.request().url().replace('seconds=5', 'seconds=30') }),
  )
  const left = page.waitForEvent('requestfailed', (request) => /\?seconds=(?:5|30)$/.test(request.url()))
  await page.goto(`/list/${plan.day}`)
  const good = page.getByRole('region', { name: 'How good the plan is' })
  await good.getByRole('button', { name: 'Stop looking' }).click()
  await good.getByText('The search was stopped. What is shown is the best so far.').waitFor()
  // Nobody waits for it any more: the service ends its work when the question is taken back.
  await left
  assert.match(await good.innerText(), /No plan can be better by more than/)
  await page
    .getByRole('row')
    .filter({ has: page.getByText('more-0', { exact: true }) })
    .waitFor()
  await good.getByRole('button', { name: 'Look again' }).click()
  await good.getByRole('button', { name: 'Stop looking' }).waitFor()
  await good.getByText('The search was stopped.').waitFor({ state: 'detached' })
  noTroubles(screen)
})

test('an address that is no day says so, and leads to one', async () => {
  await using service = await demonstration.open()
  await using screen = await openScreen(demonstration.browser, service.url, { size: phone })
  const { page } = screen
  for (const asked of ['xyz', '2026-02-30', '1900']) {
    /* oxlint-disable no-await-in-loop: one address after the other */
    await page.goto(`/list/${asked}`)
    await page.getByRole('heading', { level: 1, name: 'This is no day' }).waitFor()
    const alert = page.getByRole('alert')
    await alert.getByText(`The address asks for the list of “${asked}”.`).waitFor()
    assert.match(
      await alert.innerText(),
      /Wanted: a day of the calendar as year, month and day, such as \d{4}-\d\d-\d\d\./,
    )
    assert.deepEqual(await sticksOut(page), [])
    assert.deepEqual(await violationsOf(page), [])
    /* oxlint-enable no-await-in-loop */
  }
  await page.getByRole('link', { name: 'Tomorrow', exact: true }).click()
  await page.getByRole('heading', { level: 1, name: 'List' }).waitFor()
  noTroubles(screen)
})
