import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import type { Browser } from 'playwright-core'
import { builtScreens } from '#service/open-service.ts'
import { openBrowser } from '../support/browser.ts'
import { NetworkLine } from '../support/network-line.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { goTo, openScreen, until, workAs } from '../support/screen.ts'

/* The rooms of the program are loaded when somebody first goes there: what that means when the network goes before. */

let browser: Browser

before(async () => {
  browser = await openBrowser()
})

after(async () => {
  await browser.close()
})

async function openUnit(service: RunningService): Promise<void> {
  const choice = { choice: 'empty', name: 'Harbour Road', timeZone: 'UTC', manager: 'Nora Castellanos' }
  assert.equal((await service.ask('POST', '/api/unit', choice)).status, 202)
}

test('a part that is not there yet says so in its place; what was typed stays, and it comes when the network is back', async () => {
  await using service = await runService({ screens: builtScreens })
  await openUnit(service)
  await using line = await NetworkLine.to(service.url)
  await using screen = await openScreen(browser, line.url)
  const { page } = screen
  await workAs(page, 'Nora Castellanos')
  await goTo(page, 'Unit')
  await page.getByRole('region', { name: 'People' }).getByRole('link', { name: 'Register a person' }).click()
  const form = page.getByRole('form', { name: 'Register a person' })
  const name = form.getByRole('textbox', { name: 'Name' })
  await name.fill('Ada Alm')
  await form.getByRole('checkbox', { name: 'Theatre', exact: true }).check()
  line.cut()
  await form.getByRole('button', { name: 'Register a person' }).click()
  await page.getByRole('button', { name: '1 entry not sent yet' }).waitFor()
  await name.fill('Bo Berg')
  await page.getByRole('button', { name: '1 entry not sent yet' }).click()
  const missing = page.getByRole('alert').filter({ hasText: 'This part of the program is not on this screen yet' })
  await missing.waitFor()
  assert.equal(await name.inputValue(), 'Bo Berg')
  line.join()
  await missing.getByRole('button', { name: 'Ask again' }).click()
  await page.getByRole('dialog', { name: 'Not sent yet' }).waitFor()
  await page.keyboard.press('Escape')
  assert.equal(await name.inputValue(), 'Bo Berg')

  line.cut()
  await page
    .getByRole('navigation', { name: 'Plan of the unit' })
    .getByRole('link', { name: /^Shelf/ })
    .click()
  await missing.waitFor()
  line.join()
  await missing.getByRole('button', { name: 'Ask again' }).click()
  await page.getByRole('heading', { level: 1, name: 'Shelf', exact: true }).waitFor()
})

test('where a browser offers no worker, as on a plain connection, every room is there when the network goes', async () => {
  await using service = await runService({ screens: builtScreens })
  await openUnit(service)
  await using line = await NetworkLine.to(service.url)
  await using screen = await openScreen(browser, line.url)
  const { page } = screen
  await page.addInitScript('delete Navigator.prototype.serviceWorker')
  await page.reload()
  await page.getByRole('heading', { level: 1 }).waitFor()
  const parts = (await (await fetch(`${service.url}/parts.json`)).json()) as readonly string[]
  assert.ok(parts.length > 50, `${parts.length} parts`)
  await until(
    'every part was fetched',
    () => page.evaluate<string[]>("performance.getEntriesByType('resource').map(({ name }) => new URL(name).pathname)"),
    (fetched) => parts.every((part) => fetched.includes(part)),
  )
  line.cut()
  for (const room of ['Shelf', 'Packing', 'Wounds', 'Unit']) {
    // oxlint-disable-next-line no-await-in-loop: one room after the other
    await goTo(page, room)
  }
})
