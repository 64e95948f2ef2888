import assert from 'node:assert/strict'
import { existsSync } from 'node:fs'
import { writeFile } from 'node:fs/promises'
import { after, before, test } from 'node:test'
import type { Browser } from 'playwright-core'
import { Instant } from '#road/instant.ts'
import { subjectKey } from '#road/subject.ts'
import { starterDevices } from '#road/catalogue/starter.ts'
import { builtScreens } from '#service/open-service.ts'
import { openBrowser } from '../support/browser.ts'
import { runService, type RunningService } from '../support/running-service.ts'
import { entryOf, openUnit, present } from './hand.ts'

const ten = starterDevices.filter((device) =>
  [
    'telescope-10-30',
    'camera-head',
    'cannula-11',
    'gas-needle',
    'grasper-fenestrated',
    'hook-electrode',
    'suction-irrigation',
    'clip-applier',
    'aspiration-needle',
    'uterine-manipulator',
  ].includes(subjectKey(device.device)),
)

let service: RunningService
let browser: Browser

before(async () => {
  assert.equal(ten.length, 10)
  service = await runService({ screens: builtScreens, now: () => Instant.parse(present) })
  await openUnit(service)
  for (const device of ten) {
    const { status } = await service.ask('POST', '/api/entries', entryOf('device-registered', '07:00', { ...device }))
    assert.equal(status, 201)
  }
  browser = await openBrowser()
})

after(async () => {
  await browser?.close()
  await service?.close()
})

test('the step cards of ten devices print on ten sheets, each with its sources and what is unverified', async () => {
  assert.ok(existsSync(builtScreens ?? ''), 'the screens are built')
  const page = await browser.newPage({ baseURL: service.url })
  await page.goto(`/wash-room/cards?${ten.map((device) => `device=${subjectKey(device.device)}`).join('&')}`)
  await page.getByRole('article').nth(9).waitFor()
  const cards = page.getByRole('article')
  assert.equal(await cards.count(), 10)
  for (const [place, device] of ten.entries()) {
    const text = await cards.nth(place).innerText()
    assert.ok(text.includes(device.name), device.name)
    assert.match(text, /unverified, check your local standard/, device.name)
    assert.match(text, /No instructions for use on file/, device.name)
    if (device.lumens.length > 0)
      assert.match(text, /brush of \d.* mm, at least \d+ mm long[\s\S]*flush [\d.]+ mL/, device.name)
    if (device.insulated) assert.match(text, /Test the insulation with high voltage/, device.name)
    for (const part of device.partNames ?? []) assert.ok(text.includes(part), part)
  }
  const pdf = await page.pdf({ format: 'A4', margin: { top: '12mm', bottom: '12mm', left: '12mm', right: '12mm' } })
  const pages = pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)?.length
  const kept = process.env['NILGROWTH_KEEP_PDF']
  if (kept !== undefined) await writeFile(kept, pdf)
  assert.equal(pages, 10)
  await page.close()
})

test('a device page shows every method with its reasons, and a copied generic device fills the form', async () => {
  const page = await browser.newPage({ baseURL: service.url, viewport: { width: 820, height: 1180 } })
  await page.goto('/devices/gas-needle')
  const route = page.getByRole('region', { name: 'Route' })
  await route.getByText('Held: Steam').or(route.getByText('Barred: Steam')).waitFor()
  await route.getByRole('heading', { name: 'No way yet: hold it' }).waitFor()
  await page.goto('/unit/register/device')
  await page.getByRole('combobox', { name: /^Generic device/ }).selectOption({ label: 'Knot pusher, 5 mm' })
  await page.getByRole('button', { name: 'Copy into the form' }).click()
  assert.equal(await page.getByLabel('Name', { exact: true }).inputValue(), 'Knot pusher, 5 mm')
  const wide = await page.evaluate('document.documentElement.scrollWidth - document.documentElement.clientWidth')
  assert.equal(wide, 0)
  await page.close()
})
