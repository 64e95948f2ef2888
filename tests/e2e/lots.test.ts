import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import type { Browser, Page } from 'playwright-core'
import { v7 } from 'uuid'
import type { Bodies, KindName } from '#road/kinds.ts'
import { builtScreens } from '#service/open-service.ts'
import { openBrowser } from '../support/browser.ts'
import { sticksOut, violationsOf } from '../support/page-check.ts'
import { cleanAndDry, handWash } from '../support/road-history-parts.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { noTroubles, openScreen, phone, workAs } from '../support/screen.ts'

/* A lot of wraps is taken into use, a pack is sealed in it; the wraps are found torn, and the pack is found by the recall. */

const pictures = process.env['LOT_PICTURES']
const by = 'person:nora-castellanos'
let browser: Browser

before(async () => {
  browser = await openBrowser()
})

after(async () => {
  await browser.close()
})

async function record<K extends KindName>(service: RunningService, kind: K, body: Bodies[K]): Promise<void> {
  const entry = { id: v7(), site: 'unit', kind, happenedAt: new Date().toISOString(), by, workstation: 'Desk', body }
  const { status, body: answer } = await service.ask('POST', '/api/entries', entry)
  assert.equal(status, 201, JSON.stringify(answer))
}

async function furnish(service: RunningService): Promise<void> {
  const choice = { choice: 'empty', name: 'Harbour Road', timeZone: 'UTC', manager: 'Nora Castellanos' }
  assert.equal((await service.ask('POST', '/api/unit', choice)).status, 202)
  const none = { lumens: [], parts: 1, insulated: false, optic: false, singleUse: false }
  const device = { device: 'device:d', name: 'Grasper', contact: 'critical', steam: 'allowed' } as const
  await record(service, 'device-registered', { ...device, makerMethods: [{ method: 'steam' }], ...none })
  for (const key of ['a', 'b'] as const) {
    const round = `round:${key}` as const
    const countSheet = [{ device: 'device:d' as const, count: 1 }]
    // oxlint-disable-next-line no-await-in-loop: one step after the other
    await record(service, 'set-registered', { set: `set:${key}`, name: `Tray ${key}`, countSheet })
    // oxlint-disable-next-line no-await-in-loop: one step after the other
    await record(service, 'reprocessing-started', { round, set: `set:${key}`, because: 'newSet' })
    // oxlint-disable-next-line no-await-in-loop: one step after the other
    await record(service, 'wash-recorded', { wash: `wash:${key}`, rounds: [round], how: handWash })
    // oxlint-disable-next-line no-await-in-loop: one step after the other
    await record(service, 'inspected', { round, ...cleanAndDry })
  }
}

async function look(page: Page, name: string): Promise<void> {
  assert.deepEqual(await sticksOut(page), [])
  if (pictures === undefined) return
  for (const [scheme, width] of [
    ['light', 390],
    ['dark', 820],
  ] as const) {
    // oxlint-disable-next-line no-await-in-loop: one picture after the other
    await page.emulateMedia({ colorScheme: scheme })
    // oxlint-disable-next-line no-await-in-loop: one picture after the other
    await page.setViewportSize({ width, height: 1000 })
    // oxlint-disable-next-line no-await-in-loop: one picture after the other
    await page.screenshot({ path: `${pictures}/${name}-${scheme}.png`, fullPage: true })
  }
  await page.emulateMedia({ colorScheme: 'light' })
  await page.setViewportSize(phone)
}

async function openLot(page: Page): Promise<void> {
  await page.goto('/packing')
  await page.getByRole('link', { name: 'Lots in use' }).click()
  await page.locator('summary').getByText('Take a lot into use').click()
  const form = page.getByRole('form', { name: 'Take a lot into use' })
  await form.getByRole('combobox', { name: 'What it is' }).selectOption({ label: 'Wraps and pouches' })
  await form.getByRole('textbox', { name: 'Name' }).fill('Wrap 90 × 90')
  await form.getByRole('textbox', { name: 'Lot number' }).fill('W-17')
  await form.getByLabel('Expiry on the label').fill('2099-12-31')
  await form.getByRole('button', { name: 'Take a lot into use' }).click()
  await page.getByRole('region', { name: 'Wraps and pouches' }).getByRole('link', { name: 'W-17' }).waitFor()
}

/** The lot is typed for the first pack and remembered for the second. */
async function seal(page: Page, key: string, typed: boolean): Promise<void> {
  await page.goto(`/packing/${key}`)
  const form = page.getByRole('form', { name: 'Seal pack' })
  const wrap = form.getByRole('combobox', { name: 'Lot of the wrap or filter' })
  if (typed) {
    await wrap.fill('W-18')
    await form.getByText('No lot has this number. Take it into use in Lots, or leave this empty.').waitFor()
    await wrap.fill('W-17')
  }
  await form.getByText('Wrap 90 × 90', { exact: true }).waitFor()
  assert.equal(await wrap.inputValue(), 'W-17')
  await form.getByRole('button', { name: 'All as on the sheet' }).click()
  await form.getByRole('textbox', { name: 'Lot of the inside indicator' }).fill('C-5')
  await form.getByRole('textbox', { name: 'Lot of the outside indicator' }).fill('C-1')
  await look(page, `seal-${key}`)
  await form.getByRole('button', { name: 'Seal pack' }).click()
  await page.getByText('Sealed. It waits for a load.').waitFor()
}

async function recallLot(page: Page): Promise<void> {
  await page.goto('/lots')
  await page.getByRole('link', { name: 'W-17' }).click()
  await page.locator('summary').getByText('Take this lot out of use').click()
  const out = page.getByRole('form', { name: 'Take this lot out of use' })
  await out.getByRole('combobox', { name: 'Reason' }).selectOption({ label: 'Found faulty' })
  await out.getByRole('textbox', { name: 'Why' }).fill('Torn at the fold')
  await out.getByText(/^Caution. Lot W-17 is bad/).waitFor()
  await out.getByRole('button', { name: 'Take this lot out of use' }).click()
  await page.getByRole('link', { name: 'Open the recall of this lot' }).waitFor()
  await look(page, 'lot')
  await page.locator('summary').getByText('Open the recall of this lot').click()
  const form = page.getByRole('form', { name: 'Open recall of the lot' })
  await form.getByRole('textbox', { name: 'Why' }).fill('The wraps are torn at the fold.')
  await form.getByRole('button', { name: 'Open recall of the lot' }).click()
}

async function account(page: Page): Promise<void> {
  await page.getByRole('heading', { level: 1, name: 'Recall lot-w-17' }).waitFor()
  await page.getByText('0 of 2 packs accounted for').waitFor()
  await look(page, 'recall')
  for (const [done, name] of ['Tray a', 'Tray b'].entries()) {
    // oxlint-disable-next-line no-await-in-loop: one pack after the other
    await page.getByRole('combobox', { name: `What was done with ${name}` }).selectOption({ label: 'Discarded' })
    // oxlint-disable-next-line no-await-in-loop: one pack after the other
    await page.getByRole('button', { name: `Account: ${name}` }).click()
    // oxlint-disable-next-line no-await-in-loop: one pack after the other
    await page.getByText(`${done + 1} of 2 packs accounted for`).waitFor()
  }
}

test('a bad lot of wraps is recalled, and its packs are accounted for', async () => {
  await using service = await runService({ screens: builtScreens })
  await furnish(service)
  await using screen = await openScreen(browser, service.url, { size: phone })
  const { page } = screen
  await workAs(page, 'Nora Castellanos')
  await openLot(page)
  await seal(page, 'a', true)
  await seal(page, 'b', false)
  await recallLot(page)
  await account(page)
  await page.goto('/lots')
  await page.getByRole('region', { name: 'Wraps and pouches' }).getByText('In doubt').waitFor()
  await look(page, 'lots')
  assert.deepEqual(await violationsOf(page), [])
  noTroubles(screen)
})
