import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import type { Browser, Page } from 'playwright-core'
import { v7 } from 'uuid'
import type { Bodies, KindName } from '#road/kinds.ts'
import { builtScreens } from '#service/open-service.ts'
import { openBrowser } from '../support/browser.ts'
import { sticksOut } from '../support/page-check.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { noTroubles, openScreen, phone, workAs } from '../support/screen.ts'

let browser: Browser

before(async () => {
  browser = await openBrowser()
})

after(async () => {
  await browser.close()
})

async function record<K extends KindName>(service: RunningService, kind: K, body: Bodies[K]): Promise<void> {
  const by = 'person:nora-castellanos'
  const entry = { id: v7(), site: 'unit', kind, happenedAt: new Date().toISOString(), by, workstation: 'Desk', body }
  const { status, body: answer } = await service.ask('POST', '/api/entries', entry)
  assert.equal(status, 201, JSON.stringify(answer))
}

async function openUnit(service: RunningService): Promise<void> {
  const choice = { choice: 'empty', name: 'Harbour Road', timeZone: 'UTC', manager: 'Nora Castellanos' }
  assert.equal((await service.ask('POST', '/api/unit', choice)).status, 202)
  const machine = { airRemoval: 'gravity' as const, chamberLitres: 20, programs: ['usual'] }
  await record(service, 'machine-registered', {
    machine: 'machine:sonic',
    name: 'Sonic',
    type: 'ultrasonicBath',
    ...machine,
  })
  await record(service, 'machine-registered', {
    machine: 'machine:gas',
    name: 'Gas',
    type: 'ethyleneOxideSteriliser',
    ...machine,
  })
  await record(service, 'load-built', {
    load: 'load:gas-1',
    machine: 'machine:gas',
    program: 'usual',
    purpose: 'biologicalTest',
    rounds: [],
  })
}

/** The smallest picture that a browser draws: one pixel. */
const pixel = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNkYPhfDwAChwGA60e6kgAAAABJRU5ErkJggg==',
  'base64',
)

async function foilTest(page: Page): Promise<void> {
  await page.goto('/machines/sonic')
  const sheet = page.getByRole('region', { name: 'Foil test' })
  await sheet.getByText('Never tested: test it before its first use.').waitFor()
  const form = sheet.getByRole('form', { name: 'Record the foil test' })
  await form.getByLabel(/^Photos/).setInputFiles({ name: 'foil.png', mimeType: 'image/png', buffer: pixel })
  await form.getByRole('img', { name: 'Photo 1' }).waitFor()
  await form.getByRole('radio', { name: 'A strip is whole, or eaten away unevenly' }).check()
  await form.getByText(/^Stop. Sonic failed its foil test/).waitFor()
  await form.getByRole('button', { name: 'Record the foil test' }).click()
  const kept = sheet.locator('p').getByRole('button', { name: /^A strip is whole/ })
  await kept.waitFor()
  const photo = sheet.getByRole('img', { name: 'Photo 1' }).first()
  await photo.waitFor()
  assert.equal(await photo.evaluate((image: { naturalWidth: number }) => image.naturalWidth), 1)
}

async function residues(page: Page): Promise<void> {
  await page.goto('/loads/gas-1')
  const sheet = page.getByRole('region', { name: 'Residues of the gas' })
  await sheet.locator('summary').getByText('Record residues').click()
  const form = sheet.getByRole('form', { name: 'Record residues' })
  await form.getByRole('radio', { name: 'Up to 24 h', exact: true }).check()
  const gas = form.getByRole('group', { name: 'Ethylene oxide', exact: true })
  // ISO 10993-7, limited contact: 4 mg in the first day.
  await gas.getByRole('spinbutton', { name: /^First 24 h/ }).fill('4.1')
  await form.getByText(/^Stop. Too much ethylene oxide is left/).waitFor()
  await form.getByRole('button', { name: 'Record residues' }).click()
  await sheet
    .getByRole('button', { name: /4.1 mg, .*at most 4 mg/ })
    .first()
    .waitFor()
}

async function exposure(page: Page): Promise<void> {
  await page.goto('/safety')
  const form = page.getByRole('form', { name: 'Record the measurement' })
  await form.getByRole('combobox', { name: 'Who breathed it' }).selectOption({ label: 'Nora Castellanos' })
  await form.getByRole('textbox', { name: 'Place' }).fill('Gas room')
  await form.getByRole('spinbutton', { name: 'Sample 1: minutes' }).fill('120')
  await form.getByRole('spinbutton', { name: 'Sample 1: ppm' }).fill('2')
  await form.getByRole('button', { name: 'One more sample' }).click()
  await form.getByRole('spinbutton', { name: 'Sample 2: minutes' }).fill('360')
  await form.getByRole('spinbutton', { name: 'Sample 2: ppm' }).fill('0.3')
  await form.getByRole('button', { name: 'Record the measurement' }).click()
  const people = page.getByRole('region', { name: 'By person' })
  // (2 h at 2 ppm + 6 h at 0.3 ppm) / 8 h, 29 CFR 1910.1047: at the action level of 0.5 and below the limit of 1 ppm.
  await people.getByRole('button', { name: /^Mean of 8 h 0.725 ppm/ }).waitFor()
  await people.getByText(/1 day of the last year at the action level/).waitFor()
  await page
    .getByRole('table', { name: 'By place' })
    .getByRole('rowheader', { name: /^Gas room/ })
    .waitFor()
}

test('foil test with a photo, residues of a gas load, and the air that a person breathed', async () => {
  await using service = await runService({ screens: builtScreens })
  await openUnit(service)
  await using screen = await openScreen(browser, service.url, { size: phone })
  const { page } = screen
  await workAs(page, 'Nora Castellanos')
  for (const walk of [foilTest, residues, exposure]) {
    // oxlint-disable-next-line no-await-in-loop: one page after the other
    await walk(page)
    // oxlint-disable-next-line no-await-in-loop: one page after the other
    assert.deepEqual(await sticksOut(page), [])
  }
  noTroubles(screen)
})
