import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import type { Browser } from 'playwright-core'
import { builtScreens } from '#service/open-service.ts'
import { openBrowser } from '../support/browser.ts'
import { sticksOut } from '../support/page-check.ts'
import { runService } from '../support/running-service.ts'
import { nextThing, noTroubles, openScreen, phone, workAs } from '../support/screen.ts'
import { openWoundUnit, surgeon } from '../support/wound-store.ts'

/** The smallest picture there is. */
const onePixel = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
  'base64',
)

let browser: Browser

before(async () => {
  browser = await openBrowser()
})

after(async () => {
  await browser.close()
})

test('a wound that is not well goes from the call to its judgement, its photo seen and a death told apart, on a phone', async () => {
  await using service = await runService({ screens: builtScreens })
  await openWoundUnit(service, Date.now(), [12])
  await using screen = await openScreen(browser, service.url, { size: phone })
  const { page } = screen
  await workAs(page, surgeon.name)
  await page.goto('/wounds/follow-up?case=d12')
  const call = page.getByRole('form', { name: 'Keep this follow-up' })
  await call.getByRole('radio', { name: 'The patient' }).check()
  await call.getByRole('radio', { name: 'Not well' }).check()
  await call.getByRole('checkbox', { name: 'Discharge' }).check()
  await call.getByRole('button', { name: 'Keep this follow-up' }).click()
  await nextThing(page).getByRole('link', { name: 'Note the wound' }).click()
  const noted = page.getByRole('form', { name: 'Record wound' })
  // Whose wound it is, in words, though nobody chose it from the list.
  await page
    .getByRole('combobox', { name: 'Case' })
    .getByText(/Laparoscopic cholecystectomy, P-12$/)
    .waitFor({ state: 'attached' })
  await noted.getByRole('radio', { name: 'Superficial' }).check()
  await noted.getByRole('textbox', { name: 'Signs' }).fill('Fluid at the navel')
  await noted.locator('input[type=file]').setInputFiles({ name: 'navel.png', mimeType: 'image/png', buffer: onePixel })
  await noted.getByRole('img', { name: 'Photo 1' }).waitFor()
  await noted.getByRole('button', { name: 'Record wound' }).click()
  await page.getByRole('heading', { level: 1, name: 'Wound', exact: true }).waitFor()
  await page.getByRole('img', { name: 'Photo 1' }).waitFor()
  const judged = page.getByRole('form', { name: 'Keep the judgement' })
  await judged.getByRole('checkbox', { name: 'Pus from the skin wound' }).check()
  await judged.getByRole('button', { name: 'Keep the judgement' }).click()
  await page.getByText(/Day 12 after the operation, within the counted days/).waitFor()
  await page.locator('summary').getByText('Add what was done').click()
  const done = page.getByRole('form', { name: 'Keep', exact: true })
  await done.getByRole('combobox', { name: 'What' }).selectOption({ label: 'Died' })
  await done
    .getByRole('group', { name: 'The infection had to do with it' })
    .getByRole('radio', { name: 'No', exact: true })
    .check()
  assert.deepEqual(await sticksOut(page), [])
  await done.getByRole('button', { name: 'Keep', exact: true }).click()
  await page.getByText(/Died, the infection had nothing to do with it/).waitFor()
  await page.goto('/wounds')
  await page
    .getByRole('table', { name: 'Wounds' })
    .getByRole('link', { name: /^Infection / })
    .waitFor()
  noTroubles(screen)
})
