import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { Page } from 'playwright-core'
import { builtScreens } from '#service/open-service.ts'
import { openBrowser } from '../support/browser.ts'
import { isSettled, violationsOf } from '../support/page-check.ts'
import { runService } from '../support/running-service.ts'
import { noTroubles, openScreen, phone, workAs } from '../support/screen.ts'
import { UnitClock } from '../support/unit-clock.ts'
import { openOwnUnit, unit } from './walks/own-unit.ts'

/* An item from its registration to its end, and a borrowed set from its arrival to its way back. */

const clock = new UnitClock('2026-03-02T06:00:00.000Z')

test('an item is moved, repaired, tested and retired; a late loan set is received and sent back', async () => {
  const browser = await openBrowser()
  const service = await runService({ screens: builtScreens, now: clock.now })
  try {
    const screen = await openScreen(browser, service.url, { at: clock.milliseconds(), size: phone })
    const { page } = screen
    await openOwnUnit(page)
    await workAs(page, unit.manager)
    for (const name of ['Hook', 'Spare hook']) await registerDevice(page, name)
    await registerSet(page)
    await oneItem(page)
    await oneLoan(page)
    noTroubles(screen)
    assert.deepEqual(service.log, [])
  } finally {
    await browser.close()
    await service.close()
  }
})

async function registerDevice(page: Page, name: string): Promise<void> {
  await page.goto('/unit/register/device')
  const form = page.getByRole('form', { name: 'Register a device' })
  await form.getByRole('textbox', { name: 'Name' }).fill(name)
  await form.getByRole('radio', { name: 'Critical: enters tissue', exact: true }).check()
  await form.getByRole('radio', { name: 'Allows steam' }).check()
  await form.getByRole('spinbutton', { name: 'Life in uses' }).fill('100')
  await form.getByRole('button', { name: 'Register a device' }).click()
  await recorded(page)
}

async function registerSet(page: Page): Promise<void> {
  await page.goto('/unit/register/set')
  const form = page.getByRole('form', { name: 'Register a set' })
  await form.getByRole('textbox', { name: 'Name' }).fill('Basic')
  await form.getByRole('combobox', { name: 'Device' }).selectOption({ label: 'Hook' })
  await form.getByText('May be replaced by').click()
  await form.getByRole('checkbox', { name: 'Spare hook' }).check()
  await form.getByRole('button', { name: 'Register a set' }).click()
  await recorded(page)
}

async function oneItem(page: Page): Promise<void> {
  await page.goto('/unit/register/item')
  const form = page.getByRole('form', { name: 'Register an item' })
  await form.getByRole('combobox', { name: 'Device' }).selectOption({ label: 'Hook' })
  await form.getByRole('textbox', { name: 'Serial number' }).fill('H1')
  await form.getByRole('spinbutton', { name: 'Uses before this record began' }).fill('100')
  await form.getByRole('button', { name: 'Register an item' }).click()
  await recorded(page)

  await page.goto('/sets/basic')
  await page.getByText('May be replaced by Spare hook').waitFor()
  await page.getByText('Put an item in').first().click()
  const put = page.getByRole('form', { name: 'Put an item in' })
  await put.getByRole('combobox', { name: 'Item' }).selectOption({ label: 'Hook, H1' })
  await put.getByRole('button', { name: 'Put an item in' }).click()
  const items = page.getByRole('region', { name: 'Items' })
  await items.getByText('100 uses counted').waitFor()
  await items.getByRole('link', { name: 'Hook, H1' }).click()
  await page.getByText('It has reached the life of 100 uses').waitFor()

  await record(page, 'Send it out for repair', { 'What is wrong with it': 'Loose' })
  await page.getByText('Out for repair: Loose').waitFor()
  await record(page, 'Back from repair', { 'What was repaired': 'Tightened' })
  await page.getByText('Tightened', { exact: true }).waitFor()
  await record(page, 'Test its insulation', {}, 'Failed')
  await page.getByText('Insulation failed its last test').waitFor()
  await isSettled(page)
  assert.deepEqual(await violationsOf(page), [])
  assert.ok(await page.evaluate('document.documentElement.scrollWidth <= innerWidth'), 'no sideways scroll')
  await record(page, 'Retire it', {}, 'Its life is reached')
  await page.getByText('Retired: Its life is reached.').waitFor()
}

/** Opens one of the folded forms of an item and sends it. */
async function record(page: Page, action: string, texts: Record<string, string>, choice?: string): Promise<void> {
  await page.locator('summary', { hasText: action }).click()
  const form = page.getByRole('form', { name: action })
  for (const [label, text] of Object.entries(texts)) {
    // oxlint-disable-next-line no-await-in-loop
    await form.getByRole('textbox', { name: label }).fill(text)
  }
  if (choice !== undefined) await form.getByRole('radio', { name: choice }).check()
  await form.getByRole('button', { name: action }).click()
}

async function oneLoan(page: Page): Promise<void> {
  await page.goto('/unit/register/loan')
  const form = page.getByRole('form', { name: 'Receive a loan set' })
  await form.getByRole('textbox', { name: 'Name' }).fill('Borrowed')
  await form.getByRole('textbox', { name: 'From whom' }).fill('Hill House')
  await form.getByLabel('Needed at').fill('2026-03-03T18:00')
  await form.getByLabel('Due back at').fill('2026-03-06T12:00')
  await form.getByRole('checkbox', { name: 'It was here before' }).check()
  await form.getByRole('checkbox', { name: 'It arrived marked sterile' }).check()
  await form.getByRole('checkbox', { name: 'The instructions for use are on file' }).check()
  await form.getByRole('spinbutton', { name: 'Mass, kg' }).fill('6')
  await form.getByRole('combobox', { name: 'Device' }).selectOption({ label: 'Hook' })
  await form.getByText('Borrowed came too late').first().waitFor()
  await form.getByText('Take it as contaminated').first().waitFor()
  await form.getByRole('button', { name: 'Receive a loan set' }).click()
  await recorded(page)

  await page.goto('/sets/borrowed')
  const loan = page.getByRole('region', { name: 'Loan' })
  await loan.getByText('Hill House').first().waitFor()
  await loan.getByText('Borrowed came too late').first().waitFor()
  await loan.getByRole('checkbox', { name: 'It is decontaminated' }).check()
  await loan.getByRole('checkbox', { name: 'It is complete' }).check()
  await loan.getByRole('button', { name: 'Send it back to its lender' }).click()
  await loan.getByText('Not yet').waitFor({ state: 'detached' })
}

async function recorded(page: Page): Promise<void> {
  await page.getByRole('status').getByText('Recorded.').first().waitFor()
}
