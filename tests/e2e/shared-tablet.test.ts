import assert from 'node:assert/strict'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, before, test } from 'node:test'
import type { Browser, Page } from 'playwright-core'
import type { KeptEntry } from '#road/entry.ts'
import { builtScreens } from '#service/open-service.ts'
import { openBrowser } from '../support/browser.ts'
import { NetworkLine } from '../support/network-line.ts'
import { openScreen, type Screen, until } from '../support/screen.ts'
import { passphraseOf, SignedUnit } from '../support/signed-unit.ts'
import { sqliteService } from '../support/service-engines.ts'

/* What one person leaves at a tablet, and what the next one sees and sends of it. */

let browser: Browser

before(async () => {
  browser = await openBrowser()
})

after(async () => {
  await browser.close()
})

const doorOf = (page: Page) => page.getByRole('dialog', { name: 'Sign in' })

async function signIn(page: Page, name: string): Promise<void> {
  const door = doorOf(page)
  const byName = door.getByRole('button', { name: 'By name and passphrase' })
  await door.getByLabel('Name', { exact: true }).or(byName).waitFor()
  if (await byName.isVisible()) await byName.click()
  await door.getByLabel('Name', { exact: true }).fill(name)
  await door.getByLabel('Passphrase', { exact: true }).fill(passphraseOf(name))
  await door.getByRole('button', { name: 'Sign in', exact: true }).click()
  await door.waitFor({ state: 'detached' })
}

async function leave(page: Page, name: string): Promise<void> {
  await page.getByRole('button', { name: `Working: ${name}. Change` }).click()
  await page
    .getByRole('dialog', { name: `Signed in: ${name}` })
    .getByRole('button', { name: /^(Sign out|Change person)$/ })
    .click()
  await doorOf(page).waitFor()
}

/** Measures the store, at a page that is open already. */
async function measure(page: Page, celsius: number): Promise<void> {
  await page.goto('/shelf')
  await page.getByText('Record a reading', { exact: true }).first().click()
  const form = page.getByRole('form', { name: 'Record a reading' })
  await form.getByLabel('Where').fill('Store')
  await form.getByLabel('Relative humidity, %').fill('45')
  await form.getByLabel('Temperature, °C').fill(String(celsius))
}

const sendReading = (page: Page) =>
  page.getByRole('form', { name: 'Record a reading' }).getByRole('button', { name: 'Record a reading' }).click()

async function readingsOf(unit: SignedUnit): Promise<readonly Pick<KeptEntry, 'by' | 'body'>[]> {
  const kept = await unit.service.journal.read('unit' as never).entries({ afterSeq: 0, limit: 1000 })
  return kept.filter(({ kind }) => kind === 'storage-measured')
}

const namesAndCelsius = (readings: readonly Pick<KeptEntry, 'by' | 'body'>[]) =>
  readings.map(({ by, body }) => [by, body['temperatureC']])

async function openUnit(): Promise<SignedUnit> {
  const unit = await SignedUnit.open(sqliteService, {}, builtScreens)
  await unit.person('Nora', ['reprocessing'])
  await unit.person('Sam', ['reprocessing'])
  return unit
}

/** Nora enters a reading while the network is away, and goes. */
async function leavesOneWaiting(unit: SignedUnit, { page }: Screen, line: NetworkLine): Promise<void> {
  await signIn(page, 'Nora')
  await measure(page, 19.5)
  line.cut()
  await sendReading(page)
  await page.getByRole('button', { name: '1 entry not sent yet' }).waitFor()
  await leave(page, 'Nora')
  unit.pass(1)
  line.join()
}

test('at a browser that is no enrolled tablet, what Nora entered waits for Nora: Sam sees that it does, and no more', async () => {
  await using unit = await openUnit()
  await using line = await NetworkLine.to(unit.service.url)
  await using screen = await openScreen(browser, line.url, { at: Date.parse(unit.now()) })
  const { page } = screen
  await leavesOneWaiting(unit, screen, line)
  await signIn(page, 'Sam')
  await page.getByRole('button', { name: '1 entry not sent yet' }).click()
  const outbox = page.getByRole('dialog', { name: 'Not sent yet' })
  await outbox.getByText('1 entry waits until Nora has signed in here.').waitFor()
  assert.equal(await outbox.getByText('Store measured').count(), 0)
  assert.deepEqual(await readingsOf(unit), [])
  await page.keyboard.press('Escape')
  await measure(page, 21)
  await sendReading(page)
  await page.getByRole('status').filter({ hasText: 'Recorded.' }).waitFor()
  assert.deepEqual(namesAndCelsius(await readingsOf(unit)), [['person:sam', 21]])
  await leave(page, 'Sam')
  await signIn(page, 'Nora')
  await page.getByRole('button', { name: /not sent yet/ }).waitFor({ state: 'detached' })
  assert.deepEqual(namesAndCelsius(await readingsOf(unit)), [
    ['person:sam', 21],
    ['person:nora', 19.5],
  ])
})

test('at an enrolled tablet, where the service knows that Nora was signed in when she entered it, it is sent in her name while Sam works on', async () => {
  await using unit = await openUnit()
  await using line = await NetworkLine.to(unit.service.url)
  await using screen = await openScreen(browser, line.url, { at: Date.parse(unit.now()) })
  const { context, page } = screen
  const manager = { by: 'passphrase', name: 'Mira', passphrase: passphraseOf('Mira') }
  assert.equal((await context.request.post('/api/sign-in', { data: manager })).status(), 200)
  assert.equal((await context.request.post('/api/devices', { data: { name: 'Wash room' } })).status(), 200)
  await context.request.post('/api/sign-out', { data: {} })
  await page.reload()
  await leavesOneWaiting(unit, screen, line)
  await signIn(page, 'Sam')
  await page.getByRole('button', { name: /not sent yet/ }).waitFor({ state: 'detached' })
  await page.getByRole('button', { name: 'Working: Sam. Change' }).waitFor()
  assert.deepEqual(namesAndCelsius(await readingsOf(unit)), [['person:nora', 19.5]])
})

test('who a patient is stays in the page that shows it: in no store of the browser, and gone when the door closes', async () => {
  const keys = mkdtempSync(join(tmpdir(), 'nilgrowth-shared-tablet-'))
  try {
    const identityKey = { NILGROWTH_IDENTITY_KEY_FILE: join(keys, 'identities') }
    await using unit = await SignedUnit.open(sqliteService, identityKey, builtScreens)
    await nameThePatient(unit)
    await using line = await NetworkLine.to(unit.service.url)
    await using screen = await openScreen(browser, line.url, { at: Date.parse(unit.now()) })
    const { page } = screen
    await signIn(page, 'Sana')
    await page.goto('/theatre/c-1')
    const panel = page.getByRole('region', { name: 'Who the patient is' })
    await panel.getByRole('button', { name: 'Show who it is' }).click()
    await panel.getByText(patient.name).waitFor()
    // What is kept is there, so that what is not kept would be seen.
    await until(
      'the case is kept in the browser',
      () => storesOf(page),
      (text) => text.includes('case:c-1'),
    )
    for (const secret of Object.values(patient)) assert.ok(!(await storesOf(page)).includes(secret), secret)

    // Nobody does anything, and the door closes.
    unit.pass(16)
    await page.clock.fastForward(16 * 60_000)
    await doorOf(page).waitFor()
    await panel.getByText(patient.name).waitFor({ state: 'detached' })
    assert.ok(!(await page.content()).includes(patient.name))
    await signIn(page, 'Sana')
    // Whoever wants to see it again is asked why again.
    await panel.getByRole('button', { name: 'Show who it is' }).click()
    await panel.getByText(patient.name).waitFor()

    line.cut()
    await leave(page, 'Sana')
    await panel.getByText(patient.name).waitFor({ state: 'detached' })
    // The page itself stays behind the door as it was, without the name; what was kept of it goes.
    const [left, shown] = [await storesOf(page), await page.content()]
    for (const secret of Object.values(patient)) assert.ok(!left.includes(secret) && !shown.includes(secret), secret)
    for (const known of ['P-0001', 'case:c-1']) assert.ok(!left.includes(known), known)
  } finally {
    rmSync(keys, { recursive: true })
  }
})

const patient = { name: 'Ada Kowalczyk-Invented', hospitalNumber: 'H-7781', phone: '555 0142' }

async function nameThePatient(unit: SignedUnit): Promise<void> {
  const surgeon = await unit.person('Sana', ['surgeonInCharge'])
  const booking = unit.entry('sana', 'case-booked', {
    case: 'case:c-1',
    patient: 'P-0001',
    procedure: 'Cholecystectomy',
    theatre: 'Theatre 1',
    surgeon: 'person:sana',
    plannedAt: unit.now(),
    implantPlanned: false,
  })
  assert.equal((await surgeon.ask('POST', '/api/entries', booking)).status, 201)
  const change = unit.entry('mira', 'limit-changed', {
    policy: 'policy:unit',
    limit: 'keep-identities',
    value: true,
    reason: 'Patients are called after the operation',
  })
  assert.equal((await unit.decide(change, 'Mira', 'Sana')).status, 201)
  const written = await surgeon.ask('PUT', '/api/cases/case:c-1/identity', { identity: patient, why: 'care' })
  assert.equal(written.status, 200)
}

/** All that the browser keeps for this address, as one text. */
async function storesOf(page: Page): Promise<string> {
  return await page.evaluate<string>(`(async () => {
    const asked = (request) => new Promise((resolve, reject) => {
      request.onsuccess = () => resolve(request.result)
      request.onerror = () => reject(request.error)
    })
    const kept = [JSON.stringify({ ...localStorage }), JSON.stringify({ ...sessionStorage }), document.cookie]
    for (const { name } of await indexedDB.databases()) {
      const database = await asked(indexedDB.open(name))
      for (const store of database.objectStoreNames)
        kept.push(JSON.stringify(await asked(database.transaction(store).objectStore(store).getAll())))
      database.close()
    }
    for (const name of await caches.keys())
      for (const request of await (await caches.open(name)).keys()) kept.push(request.url)
    return kept.join('\\n')
  })()`)
}
