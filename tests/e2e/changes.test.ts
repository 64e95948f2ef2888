import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { Locator, Page } from 'playwright-core'
import { Instant } from '#road/instant.ts'
import type { KnownOf } from '#road/known.ts'
import type { SubjectId, SubjectKind } from '#road/subject.ts'
import type { KnownPage, KnownRow } from '#service/api-types.ts'
import { builtScreens } from '#service/open-service.ts'
import { openUnit, present, record } from '../service/hand.ts'
import { openBrowser } from '../support/browser.ts'
import { isSettled, sticksOut, violationsOf } from '../support/page-check.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { noTroubles, openScreen, phone, workAs } from '../support/screen.ts'

/* What is registered is changed by its form, which shows what is there and loses nothing of it. */

test('a device, a set, a gas steriliser and a person are changed; a refused row of a spreadsheet is named', async () => {
  const browser = await openBrowser()
  const service = await runService({ screens: builtScreens, now: () => Instant.parse(present) })
  try {
    await openUnit(service)
    await registerMachine(service)
    const screen = await openScreen(browser, service.url, { at: Date.parse(present), size: phone })
    const { page } = screen
    await workAs(page, 'Ada')
    await registerDevice(page)
    await deviceIsChanged(page, service)
    await setIsChanged(page, service)
    await machineIsChanged(page, service)
    await personIsChanged(page, service)
    await rowIsRefused(page)
    await testsOverTime(page, service)
    await hoursAreSet(page, service)
    await planOfCaseIsGiven(page, service)
    noTroubles(screen)
    assert.deepEqual(service.log, [])
  } finally {
    await browser.close()
    await service.close()
  }
})

async function registerMachine(service: RunningService): Promise<void> {
  const { status } = await record(service, 'machine-registered', '06:00', {
    machine: 'machine:gas',
    name: 'Peroxide',
    type: 'hydrogenPeroxideSteriliser',
    airRemoval: 'none',
    chamberLitres: 100,
    programs: ['lumen'],
    windows: {
      lumen: {
        method: 'hydrogenPeroxide',
        windows: [{ variable: 'temperatureC', from: 45, to: 55 }],
        exposureSeconds: 600,
        longestExposureSeconds: 1200,
      },
    },
  })
  assert.equal(status, 201)
}

/** A device with two uses and the maker's methods, by its form. */
async function registerDevice(page: Page): Promise<void> {
  await page.goto('/unit/register/device')
  const form = page.getByRole('form', { name: 'Register a device' })
  await form.getByRole('textbox', { name: 'Name' }).fill('Scope')
  await form.getByRole('radio', { name: 'Critical: enters tissue', exact: true }).check()
  for (const [place, [use, site]] of [
    ['Cystoscopy', 'mucosa'],
    ['Laparoscopy', 'sterileTissue'],
  ].entries()) {
    // One line after the other.
    /* oxlint-disable no-await-in-loop */
    await form.getByRole('button', { name: 'Add a use' }).click()
    await form
      .getByRole('textbox', { name: 'Use', exact: true })
      .nth(place)
      .fill(use ?? '')
    await form
      .getByRole('combobox', { name: 'Where it goes' })
      .nth(place)
      .selectOption(site ?? '')
    /* oxlint-enable no-await-in-loop */
  }
  await form.getByRole('checkbox', { name: 'The maker’s list is on file' }).check()
  await form.getByRole('checkbox', { name: 'Steam', exact: true }).check()
  await form.getByRole('spinbutton', { name: /^Steam: .*cycles/ }).fill('200')
  await form.getByRole('button', { name: 'Register a device' }).click()
  await recorded(page)
}

async function deviceIsChanged(page: Page, service: RunningService): Promise<void> {
  await page.goto('/devices/scope')
  const route = page.getByRole('region', { name: 'Route' })
  await route.getByRole('link', { name: 'Step card of Scope, Cystoscopy' }).click()
  const card = page.getByRole('article', { name: 'Step card: Scope' })
  await card.getByText('Semi-critical, by its use: Cystoscopy.').waitFor()
  await page.getByRole('combobox', { name: /^What Scope is used for/ }).selectOption('Laparoscopy')
  await card.getByText('Critical, by its use: Laparoscopy.', { exact: true }).waitFor()

  await page.goto('/devices/scope')
  await page.getByRole('link', { name: 'Change' }).click()
  const form = page.getByRole('form')
  await form.getByRole('spinbutton', { name: 'Life in uses' }).fill('90')
  await send(page, form)
  const { uses, makerMethods, lifeInUses } = await known(service, 'device:scope')
  assert.deepEqual(
    { uses, makerMethods, lifeInUses },
    {
      uses: [
        { use: 'Cystoscopy', site: 'mucosa' },
        { use: 'Laparoscopy', site: 'sterileTissue' },
      ],
      makerMethods: [{ method: 'steam', maxCycles: 200 }],
      lifeInUses: 90,
    },
  )
}

async function setIsChanged(page: Page, service: RunningService): Promise<void> {
  await record(service, 'set-registered', '07:00', {
    set: 'set:basic',
    name: 'Basic',
    countSheet: [{ device: 'device:scope', count: 1 }],
  })
  await page.goto('/sets/basic')
  await page.getByRole('link', { name: 'Change' }).click()
  const form = page.getByRole('form')
  assert.equal(await form.getByRole('textbox', { name: 'Name' }).inputValue(), 'Basic')
  await form.getByRole('spinbutton', { name: 'How many' }).fill('2')
  await send(page, form)
  assert.deepEqual((await known(service, 'set:basic')).countSheet, [{ device: 'device:scope', count: 2 }])
}

async function machineIsChanged(page: Page, service: RunningService): Promise<void> {
  await page.goto('/machines/gas')
  await page.getByRole('link', { name: 'Change', exact: true }).click()
  const form = page.getByRole('form')
  await form.locator('summary', { hasText: /^lumen$/ }).click()
  const from = form.getByRole('spinbutton', { name: 'Temperature, °C, from' })
  assert.equal(await from.inputValue(), '45')
  assert.equal(await form.getByRole('spinbutton', { name: 'Exposure at least, min' }).inputValue(), '10')
  await from.fill('46')
  await form.locator('summary', { hasText: 'A claim that stands in the papers' }).click()
  await form.getByRole('textbox', { name: 'Its name' }).fill('own-1')
  await form.getByRole('spinbutton', { name: 'Inner diameter, mm' }).fill('2')
  await form.getByRole('spinbutton', { name: 'Length, mm' }).fill('250')
  await form.getByRole('spinbutton', { name: 'A whole load at most, kg' }).fill('9.7')
  await form.getByRole('checkbox', { name: 'Stainless steel', exact: true }).check()
  await form.getByRole('button', { name: 'Add the claim' }).click()
  assert.ok(await form.getByRole('checkbox', { name: /^own-1: 2 mm or wider, up to 250 mm long/ }).isChecked())
  await isSettled(page)
  assert.deepEqual(await violationsOf(page), [])
  assert.deepEqual(await sticksOut(page), [])
  await send(page, form)
  const { windows, lumenClaims } = await known(service, 'machine:gas')
  assert.deepEqual(windows, {
    lumen: {
      method: 'hydrogenPeroxide',
      windows: [{ variable: 'temperatureC', from: 46, to: 55 }],
      exposureSeconds: 600,
      longestExposureSeconds: 1200,
    },
  })
  assert.deepEqual(
    lumenClaims?.map(({ id, minDiameterMm, maxLengthMm, maxLoadKg }) => [id, minDiameterMm, maxLengthMm, maxLoadKg]),
    [['own-1', 2, 250, 9.7]],
  )
}

async function personIsChanged(page: Page, service: RunningService): Promise<void> {
  await record(service, 'person-registered', '08:00', { person: 'person:bo', name: 'Bo', roles: ['reprocessing'] })
  await page.goto('/unit')
  await page.getByRole('link', { name: 'Change: bo' }).click()
  const form = page.getByRole('form')
  await form.getByRole('checkbox', { name: 'Theatre' }).check()
  await send(page, form)
  assert.deepEqual((await known(service, 'person:bo')).roles, ['reprocessing', 'theatre'])
}

/** One entry is spoilt on its way: the service refuses it and takes the others. */
async function rowIsRefused(page: Page): Promise<void> {
  await page.goto('/unit/register/device')
  await page.getByText('Take devices from a spreadsheet').click()
  const csv = 'key,name,contact\nhook,Hook,critical\nclip,Clip,critical\ngrasper,Grasper,critical\n'
  await page.getByLabel('CSV file').setInputFiles({ name: 'd.csv', mimeType: 'text/csv', buffer: Buffer.from(csv) })
  await page.route('**/api/entries', (route) => {
    const postData = (route.request().postData() ?? '').replace('"name":"Clip"', '"name":""')
    return route.continue({ postData })
  })
  await page.getByRole('button', { name: 'Register 3 devices' }).click()
  await page.getByText('2 recorded.').waitFor()
  await page
    .getByRole('list', { name: 'Not taken' })
    .getByText(/^Clip: .*name/)
    .waitFor()
  await page.unroute('**/api/entries')
  await page.getByRole('button', { name: 'Register 1 device' }).click()
  await page.getByText('1 recorded.').waitFor()
}

async function testsOverTime(page: Page, service: RunningService): Promise<void> {
  await record(service, 'reprocessing-started', '09:00', { round: 'round:1', set: 'set:basic', because: 'newSet' })
  await record(service, 'wash-recorded', '09:30', {
    wash: 'wash:1',
    rounds: ['round:1'],
    how: {
      kind: 'manual',
      detergent: 'Mild',
      takenApart: true,
      lumensBrushed: 'noLumen',
      lumensFlushed: 'noLumen',
      finalRinse: 'purified',
    },
  })
  for (const [clock, value] of [
    ['10:00', 2],
    ['10:30', 4],
    ['11:00', 7],
  ] as const) {
    const body = { round: 'round:1', wash: 'wash:1', device: 'device:scope', analyte: 'protein', value } as const
    // In their order.
    // oxlint-disable-next-line no-await-in-loop
    assert.equal((await record(service, 'cleaning-tested', clock, body)).status, 201)
  }
  await page.goto('/wash-room')
  await page.locator('summary', { hasText: 'Tests of cleaning over time' }).click()
  const trends = page.getByRole('region', { name: 'Tests of cleaning over time' })
  await trends.getByRole('img', { name: 'Protein after washing, Washed by hand, over time' }).waitFor()
  await trends.getByRole('rowheader', { name: 'Washed by hand' }).waitFor()
  await trends.getByRole('combobox', { name: 'Shown by' }).selectOption('device')
  const row = trends.getByRole('row').filter({ has: page.getByRole('rowheader', { name: 'Scope' }) })
  assert.match(await row.innerText(), /Not clean: wash again/)
  assert.deepEqual(await sticksOut(page), [])
  assert.deepEqual(await violationsOf(page), [])
}

/** A theatre is named and opened; packing, which is a default until then, is set. */
async function hoursAreSet(page: Page, service: RunningService): Promise<void> {
  await page.goto('/unit')
  const hours = page.getByRole('region', { name: 'Working hours' })
  await hours.getByRole('button', { name: 'Add a theatre' }).click()
  const theatre = page.getByRole('form', { name: 'Add a theatre' })
  await theatre.getByRole('textbox', { name: 'Theatre' }).fill('Theatre 1')
  await theatre.getByRole('textbox', { name: 'Opens' }).fill('07:30')
  await theatre.getByRole('textbox', { name: 'Closes' }).fill('15:30')
  await theatre.getByRole('textbox', { name: 'Must close' }).fill('15:00')
  await theatre.getByText(/closes no later than it must/).waitFor()
  await theatre.getByRole('textbox', { name: 'Must close' }).fill('24:00')
  await theatre.getByRole('button', { name: 'Set the hours' }).click()
  await hours.getByText('07:30 to 15:30, must close 24:00').waitFor()
  const packing = hours.getByRole('listitem').filter({ hasText: 'Packing' })
  await packing.getByText('default', { exact: true }).waitFor()
  await packing.getByRole('button', { name: 'Set hours: Packing' }).click()
  const form = page.getByRole('form', { name: 'Set hours: Packing' })
  assert.equal(await form.getByRole('textbox', { name: 'From' }).inputValue(), '07:00')
  await form.getByRole('spinbutton', { name: 'Staff' }).fill('3')
  await form.getByRole('button', { name: 'Set the hours' }).click()
  await packing.getByText('07:00 to 20:00, 3 staff').waitFor()
  await packing.getByText('default', { exact: true }).waitFor({ state: 'detached' })
  await hours.getByRole('button', { name: 'Set hours: Peroxide' }).click()
  const machine = page.getByRole('form', { name: 'Set hours: Peroxide' })
  await machine.getByRole('spinbutton', { name: 'Sets in one run' }).fill('4')
  await machine.getByRole('button', { name: 'Set the hours' }).click()
  await hours.getByText('07:00 to 20:00, 4 sets a run').waitFor()
  await isSettled(page)
  assert.deepEqual(await sticksOut(page), [])
  assert.deepEqual(await violationsOf(page), [])
  const { body } = await service.ask('GET', '/api/known?kind=unit')
  const [row] = (body as KnownPage<'unit'>).rows
  const packed = row?.state.hours?.['staff packing']
  assert.deepEqual(packed?.kind === 'staff' && [packed.count, packed.from, packed.to], [3, '07:00', '20:00'])
}

/** What the plan goes by is told at the booking, and corrected twice; the rest of the booking stays. */
async function planOfCaseIsGiven(page: Page, service: RunningService): Promise<void> {
  await record(service, 'person-registered', '12:00', { person: 'person:su', name: 'Su', roles: ['surgeonInCharge'] })
  await page.goto('/theatre/book')
  const book = page.getByRole('form', { name: 'Book case' })
  await book.getByRole('textbox', { name: 'Procedure' }).fill('Hernia')
  await book.getByRole('textbox', { name: 'Patient (pseudonym)' }).fill('P-7')
  await book.getByRole('textbox', { name: 'Theatre', exact: true }).fill('Theatre 1')
  await book.getByRole('combobox', { name: 'Surgeon' }).selectOption({ label: 'Su' })
  await book.locator('summary', { hasText: 'For the plan of the day' }).click()
  await book.getByRole('textbox', { name: 'Not before' }).fill('2026-06-11T09:00')
  await book.getByRole('spinbutton', { name: 'Minutes of the operation' }).fill('75')
  await book.getByRole('textbox', { name: 'Theatres it may be in' }).fill('Theatre 1, Theatre 2')
  await book.getByRole('combobox', { name: 'A child' }).selectOption('no')
  await book.getByRole('spinbutton', { name: 'Basic, sets' }).fill('2')
  await isSettled(page)
  assert.deepEqual(await sticksOut(page), [])
  assert.deepEqual(await violationsOf(page), [])
  await book.getByRole('button', { name: 'Book case' }).click()
  await page.getByRole('heading', { level: 1, name: 'Hernia' }).waitFor()
  const id: SubjectId<'case'> = `case:${new URL(page.url()).pathname.split('/').at(-1) ?? ''}`
  const told = {
    earliest: '2026-06-11T09:00:00.000Z',
    theatres: ['Theatre 1', 'Theatre 2'],
    minutes: 75,
    child: false,
    sets: { Basic: 2 },
  }
  assert.deepEqual((await known(service, id)).booked?.forPlan, told)
  for (const minutes of ['80', '95']) {
    // One correction after the other.
    /* oxlint-disable no-await-in-loop */
    await page.reload()
    await page.locator('summary', { hasText: 'For the plan of the day' }).click()
    const form = page.getByRole('form', { name: 'Change what the plan goes by' })
    await form.getByRole('spinbutton', { name: 'Minutes of the operation' }).fill(minutes)
    const kept = page.waitForResponse((answer) => answer.url().endsWith('/api/entries'))
    await form.getByRole('button', { name: 'Change what the plan goes by' }).click()
    assert.equal((await kept).ok(), true)
    /* oxlint-enable no-await-in-loop */
  }
  const { booked } = await known(service, id)
  assert.deepEqual(booked?.forPlan, { ...told, minutes: 95 })
  assert.deepEqual([booked?.patient, booked?.theatre], ['P-7', 'Theatre 1'])
}

async function send(page: Page, form: Locator): Promise<void> {
  await form.getByRole('button', { name: 'Change', exact: true }).click()
  await recorded(page)
}

async function recorded(page: Page): Promise<void> {
  await page.getByRole('status').getByText('Recorded.').first().waitFor()
}

async function known<Kind extends SubjectKind>(service: RunningService, id: SubjectId<Kind>): Promise<KnownOf<Kind>> {
  const { body } = await service.ask('GET', `/api/known/${encodeURIComponent(id)}`)
  return (body as KnownRow<Kind>).state
}
