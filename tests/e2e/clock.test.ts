import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import type { Browser } from 'playwright-core'
import { builtScreens } from '#service/open-service.ts'
import { openBrowser } from '../support/browser.ts'
import { violationsOf } from '../support/page-check.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { openScreen, workAs } from '../support/screen.ts'
import { UnitClock } from '../support/unit-clock.ts'
import { dayUnit, furnishDay } from './walks/day-unit.ts'

/* A tablet whose clock runs ahead of the service: what it enters cannot be judged, and the screen says so and what to do. */

const clock = new UnitClock('2026-03-02T07:00:00.000Z')
const pictures = process.env['CLOCK_PICTURES']
const ahead = 9 * 60_000
let browser: Browser
let service: RunningService

before(async () => {
  browser = await openBrowser()
  service = await runService({ screens: builtScreens, now: clock.now })
  await furnishDay(service, clock)
})

after(async () => {
  await browser.close()
  await service.close()
})

test('a form that the rules cannot judge says what was wanted, what came and what to do, and asks again', async () => {
  await using screen = await openScreen(browser, service.url, { at: clock.milliseconds() + ahead })
  const { page } = screen
  await workAs(page, dayUnit.technician)
  await page.goto('/baths')
  await page.getByText('Open a bottle of strips', { exact: true }).first().click()
  const form = page.getByRole('form', { name: 'Open a bottle of strips' })
  await form.getByRole('combobox', { name: 'What is in it' }).selectOption('ortho-phthalaldehyde-0.55')
  await form.getByRole('textbox', { name: 'Lot number' }).fill('STRIP-4')
  await form.getByLabel('Expiry on the container').fill('2026-12-31')
  await form.getByText('Not judged: no rule has looked at this yet.').waitFor()
  const told = form.getByRole('alert')
  await told
    .getByText(
      /when it happened: wanted at most 5 minutes after now, 2 Mar 2026, 07:0\d; came 2 Mar 2026, 07:\d\d, (9|10) minutes later/i,
    )
    .waitFor()
  await told.getByText(/the clock of this screen is wrong/).waitFor()
  assert.deepEqual(await violationsOf(page), [])
  if (pictures !== undefined) await page.screenshot({ path: `${pictures}/clock-ahead.png`, fullPage: true })

  // What was typed stays; with the clock set right the same question is answered.
  await page.clock.setSystemTime(clock.milliseconds())
  await told.getByRole('button', { name: 'Ask again' }).click()
  await form.getByText('Do not do this.', { exact: false }).waitFor()
  assert.equal(await told.count(), 0)
  assert.equal(await form.getByRole('textbox', { name: 'Lot number' }).inputValue(), 'STRIP-4')
})

test('what is not judged may be tried all the same, and is refused with the same words once', async () => {
  await using screen = await openScreen(browser, service.url, { at: clock.milliseconds() + 3 * 86_400_000 })
  const { page } = screen
  await workAs(page, dayUnit.technician)
  await page.goto('/baths')
  await page.getByText('Open a bottle of strips', { exact: true }).first().click()
  const form = page.getByRole('form', { name: 'Open a bottle of strips' })
  await form.getByRole('combobox', { name: 'What is in it' }).selectOption('ortho-phthalaldehyde-0.55')
  await form.getByRole('textbox', { name: 'Lot number' }).fill('STRIP-5')
  await form.getByLabel('Expiry on the container').fill('2026-12-31')
  await form.getByText('Not judged: no rule has looked at this yet.').waitFor()
  await form.getByRole('button', { name: 'Open a bottle of strips' }).click()
  const refused = form.getByRole('alert').filter({ hasText: 'Nothing was recorded' })
  await refused.getByText(/, 3 days later/).waitFor()
  await form.getByText('Not judged: no rule has looked at this yet.').waitFor({ state: 'detached' })
  assert.equal(await form.getByRole('alert').count(), 1)
})

test('a pack in hand that could not be judged is not shown as if nothing stood against it', async () => {
  await using screen = await openScreen(browser, service.url, { at: clock.milliseconds() + ahead })
  const { page } = screen
  await workAs(page, dayUnit.nurse)
  await page.goto('/theatre/day')
  await page.getByRole('textbox', { name: 'Pack', exact: true }).fill('mesh-1')
  await page.keyboard.press('Enter')
  const hand = page.getByRole('form', { name: `In hand: ${dayUnit.mesh}` })
  await hand.getByText('Not judged: no rule has looked at this yet.').waitFor()
  await page.clock.setSystemTime(clock.milliseconds())
  await hand.getByRole('button', { name: 'Ask again' }).click()
  await hand.getByRole('heading', { name: 'Do not open this pack' }).waitFor()
})
