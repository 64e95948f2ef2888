import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import type { Browser, Page } from 'playwright-core'
import { v7 } from 'uuid'
import { Instant } from '#road/instant.ts'
import type { Bodies, KindName } from '#road/kinds.ts'
import { builtScreens } from '#service/open-service.ts'
import { openBrowser } from '../support/browser.ts'
import { sticksOut, violationsOf } from '../support/page-check.ts'
import { cleanAndDry, handWash } from '../support/road-history-parts.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { noTroubles, openScreen, phone, workAs } from '../support/screen.ts'

/* A scanner acts as a keyboard: it finds a round, a lot that is not on record, and is told of a bad code; then a label is saved. */

const pictures = process.env['SCAN_PICTURES']
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
  const countSheet = [{ device: 'device:d' as const, count: 1 }]
  await record(service, 'set-registered', { set: 'set:a', name: 'Laparoscopy tray A', countSheet })
  const round = 'round:lap-a-1'
  await record(service, 'reprocessing-started', { round, set: 'set:a', because: 'newSet' })
  await record(service, 'wash-recorded', { wash: 'wash:a', rounds: [round], how: handWash })
  await record(service, 'inspected', { round, ...cleanAndDry })
  await record(service, 'pack-sealed', {
    round,
    wrap: 'doubleWrap',
    insideIndicator: { type: '5', lot: 'I-5' },
    outsideIndicator: { type: '1', lot: 'O-1' },
    counted: [{ device: 'device:d', count: 1 }],
    massKg: 3,
    implant: false,
  })
}

/** Keys as a scanner sends them, one right after the other; the separator as Ctrl and a bracket. */
async function scan(page: Page, code: string): Promise<void> {
  // As the browser tells them, with the times at which the scanner pressed them: a slow test machine types like no scanner.
  await page.evaluate(`{
    const target = document.activeElement ?? document.body
    for (const letter of [...${JSON.stringify(code)}, 'Enter']) {
      const isGap = letter === '\u001d'
      const init = { key: isGap ? ']' : letter, code: isGap ? 'BracketRight' : '', ctrlKey: isGap }
      target.dispatchEvent(new KeyboardEvent('keydown', { ...init, bubbles: true, cancelable: true }))
    }
  }`)
}

async function look(page: Page, name: string): Promise<void> {
  assert.deepEqual(await sticksOut(page), [])
  if (pictures === undefined) return
  for (const [scheme, width] of [
    ['light', 390],
    ['dark', 820],
    ['light', 1440],
  ] as const) {
    // oxlint-disable-next-line no-await-in-loop: one picture after the other
    await page.emulateMedia({ colorScheme: scheme })
    // oxlint-disable-next-line no-await-in-loop: one picture after the other
    await page.setViewportSize({ width, height: 1000 })
    // oxlint-disable-next-line no-await-in-loop: one picture after the other
    await page.screenshot({ path: `${pictures}/${name}-${scheme}-${width}.png` })
  }
  await page.emulateMedia({ colorScheme: 'light' })
  await page.setViewportSize(phone)
}

test('a scan lands where its code belongs, offers what may be recorded, and says what is wrong; a label is saved', async () => {
  await using service = await runService({ screens: builtScreens })
  await furnish(service)
  await using screen = await openScreen(browser, service.url, { size: phone })
  const { page } = screen
  await workAs(page, 'Nora Castellanos')
  await page.getByRole('heading', { level: 1, name: 'Round' }).waitFor()

  await scan(page, ']d1round:lap-a-1')
  await page.getByRole('heading', { level: 1, name: 'Laparoscopy tray A' }).waitFor()

  await scan(page, ']d20109506000134353')
  const bad = page.getByRole('dialog', { name: 'Found' }).getByRole('alert')
  await bad.waitFor()
  assert.match(await bad.innerText(), /a last digit that fits the others/)
  assert.deepEqual(await violationsOf(page), [])
  await look(page, 'bad-code')
  await page.keyboard.press('Escape')

  await page.locator('main').focus()
  await scan(page, ']d2010950600013435210AB-7\u001d17301231')
  const offer = page.getByRole('link', { name: 'Take this lot into use' })
  await offer.waitFor()
  await look(page, 'offer')
  await offer.click()
  await page.getByLabel('Product number in its code (GTIN)').waitFor()
  const values = await page
    .locator('main input')
    .evaluateAll((inputs: readonly { readonly value?: string }[]) => inputs.map((each) => each.value))
  for (const value of ['09506000134352', 'AB-7', '2030-12-31'])
    assert.ok(values.includes(value), `${value} of ${values.join()}`)

  await page.goto('/packing/lap-a-1')
  const picture = page.getByRole('img', { name: 'The label as it is printed now' })
  await picture.waitFor()
  await page.waitForFunction(`document.querySelector('img[src*="label"]')?.naturalWidth > 0`)
  assert.deepEqual(await violationsOf(page), [])
  await look(page, 'label')
  await page.getByLabel('Size of the label').selectOption('100x50')
  const saving = page.waitForEvent('download')
  await page.getByRole('link', { name: 'Save as PDF' }).click()
  assert.equal((await saving).suggestedFilename(), 'label-lap-a-1.pdf')
  noTroubles(screen)
})

test('the code of an implant is scanned at its case: the Enter of the scanner adds it, and an expired one is told', async () => {
  await using service = await runService({ screens: builtScreens })
  const choice = { choice: 'empty', name: 'Harbour Road', timeZone: 'UTC', manager: 'Nora Castellanos' }
  assert.equal((await service.ask('POST', '/api/unit', choice)).status, 202)
  const plannedAt = Instant.parse(new Date(Date.now() - 7_200_000).toISOString())
  await record(service, 'case-booked', {
    case: 'case:one',
    patient: 'P-1',
    procedure: 'Hernia repair',
    theatre: '1',
    plannedAt,
    surgeon: by,
    implantPlanned: true,
  })
  await using screen = await openScreen(browser, service.url, { size: phone })
  const { page } = screen
  await workAs(page, 'Nora Castellanos')
  await page.goto('/theatre/one')
  const field = page.getByLabel('Scan the implant')
  await field.fill('(01)09506000134353(10)L7')
  await field.press('Enter')
  await page.getByText('wanted a last digit that fits the others').waitFor()
  await field.fill(']d201095060001343521720013110L7')
  await field.press('Enter')
  const said = page.getByText('product 09506000134352, lot L7, expires 31 Jan 2020')
  await said.waitFor()
  await page.getByRole('radio', { name: 'I clean', exact: true }).check()
  await look(page, 'implant')
  await page.getByRole('button', { name: 'Record case' }).click()
  await page.getByText('had expired when it was placed').first().waitFor()
  await said.waitFor()
  await look(page, 'implant-recorded')
  noTroubles(screen)
})
