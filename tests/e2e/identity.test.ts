import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import type { Browser, Page } from 'playwright-core'
import { builtScreens } from '#service/open-service.ts'
import { openBrowser } from '../support/browser.ts'
import { caseEntry, caseOfIdentities, keepsIdentities } from '../support/identity-unit.ts'
import { sticksOut, violationsOf } from '../support/page-check.ts'
import { noTroubles, openScreen, phone, type Screen } from '../support/screen.ts'
import { sqliteService } from '../support/service-engines.ts'
import { passphraseOf, SignedUnit } from '../support/signed-unit.ts'

/* Who a patient is, on the screens: written down, seen, found, erased, each by whom it concerns. All patients are invented. */

let browser: Browser
before(async () => {
  browser = await openBrowser()
})
after(() => browser.close())

const patient = { name: 'Ada Kowalczyk-Invented', number: 'H-7781', phone: '555 0142' }

const panelOf = (page: Page) => page.getByRole('region', { name: 'Who the patient is' })

async function looksRight(page: Page): Promise<void> {
  assert.deepEqual([...(await sticksOut(page)), ...(await violationsOf(page))], [])
}

const doorOf = (page: Page) => page.getByRole('dialog', { name: 'Sign in' })

async function signIn(page: Page, name: string): Promise<void> {
  const door = doorOf(page)
  await door.getByLabel('Name', { exact: true }).fill(name)
  await door.getByLabel('Passphrase', { exact: true }).fill(passphraseOf(name))
  await door.getByRole('button', { name: 'Sign in', exact: true }).click()
  await door.waitFor({ state: 'detached' })
}

/** A screen at which this person has signed in. */
async function screenOf(unit: SignedUnit, name: string, path: string): Promise<Screen> {
  const screen = await openScreen(browser, unit.service.url, { size: phone, at: Date.parse(unit.now()) })
  const { page } = screen
  await signIn(page, name)
  await page.goto(path)
  await page.getByRole('heading', { level: 1 }).first().waitFor()
  return screen
}

/** All that the browser would keep of this page after it is closed. */
async function keptByBrowser({ page, context }: Screen): Promise<string> {
  return JSON.stringify([await context.storageState({ indexedDB: true }), page.url(), await historyOf(page)])
}

/** As text, since the page is typed as a browser is and this file is not. */
const historyOf = (page: Page): Promise<unknown> =>
  page.evaluate('JSON.stringify([history.state, { ...sessionStorage }])')

test('a nurse writes down who the patient is, a surgeon sees, finds and erases it, and the auditor sees who looked', async () => {
  await using unit = await SignedUnit.open(sqliteService, {}, builtScreens)
  const people = await caseOfIdentities(unit)

  const second = await people.nurse.ask('POST', '/api/entries', caseEntry(unit, 'c-2', 'P-0002'))
  assert.equal(second.status, 201)

  await using nurse = await screenOf(unit, 'Nora', '/theatre/c-1')
  await nurse.page.getByText('P-0001').first().waitFor()
  assert.equal(await panelOf(nurse.page).count(), 0, 'a unit that keeps no identities shows nothing of them')
  await keepsIdentities(people)
  await nurse.page.reload()
  await panelOf(nurse.page)
    .getByText(/^Nothing is written down/)
    .waitFor()
  await looksRight(nurse.page)
  await panelOf(nurse.page).getByRole('button', { name: 'Write down who it is' }).click()
  const form = nurse.page.getByRole('form', { name: 'Write down who it is' })
  await form.getByRole('button', { name: 'Keep it' }).click()
  await form.getByRole('alert').waitFor()
  await form.getByLabel('Name of the patient').fill(patient.name)
  await form.getByLabel('Number in the hospital’s register').fill(patient.number)
  await form.getByLabel('Telephone').fill(patient.phone)
  await looksRight(nurse.page)
  await form.getByRole('button', { name: 'Keep it' }).click()
  await panelOf(nurse.page)
    .getByText(/^Written down on /)
    .waitFor()
  assert.equal(await panelOf(nurse.page).getByRole('button', { name: 'Show who it is' }).count(), 0)
  assert.ok(!(await keptByBrowser(nurse)).includes('Kowalczyk'))

  await using surgeon = await screenOf(unit, 'Sana', '/wounds')
  const { page } = surgeon
  await page.getByText('Find the cases of a patient').click()
  const search = page.getByRole('form', { name: 'Find the cases of a patient' })
  await search.getByLabel(/^Name, number/).fill('0142')
  await search.getByRole('button', { name: 'Find' }).click()
  await page.getByText(patient.name).waitFor()
  await looksRight(page)
  assert.ok(!page.url().includes('0142'))
  await page.getByRole('listitem').filter({ hasText: patient.name }).getByRole('link').click()
  await panelOf(page)
    .getByText(/^Written down on /)
    .waitFor()
  assert.equal(await page.getByText(patient.name).count(), 0, 'nobody is shown before it is asked for')
  await panelOf(page).getByRole('combobox', { name: 'Why' }).selectOption('To tell the patient of a recall')
  await panelOf(page).getByRole('button', { name: 'Show who it is' }).click()
  await panelOf(page).getByText(patient.name).waitFor()
  await looksRight(page)
  assert.ok(!(await keptByBrowser(surgeon)).includes('Kowalczyk'))
  // Another case, by the browser's way back: nobody of the first may stand under it.
  await page.goto('/theatre/c-2')
  await panelOf(page)
    .getByText(/^Nothing is written down/)
    .waitFor()
  await page.getByRole('searchbox', { name: 'Find or scan' }).fill('c-1')
  await page.keyboard.press('Enter')
  await page.waitForURL('**/theatre/c-1')
  await panelOf(page).getByRole('button', { name: 'Show who it is' }).click()
  await panelOf(page).getByText(patient.name).waitFor()
  await page.goBack()
  await page.waitForURL('**/theatre/c-2')
  await panelOf(page)
    .getByText(/^Nothing is written down/)
    .waitFor()
  assert.equal(await page.getByText(patient.name).count(), 0)
  await page.goForward()
  await page.waitForURL('**/theatre/c-1')
  await panelOf(page).getByRole('button', { name: 'Show who it is' }).waitFor()
  assert.equal(await page.getByText(patient.name).count(), 0, 'it is gone with the page')
  // Nor may a name stay behind the closed door, or be there when somebody comes back.
  await panelOf(page).getByRole('button', { name: 'Show who it is' }).click()
  await panelOf(page).getByText(patient.name).waitFor()
  await page.getByRole('button', { name: 'Working: Sana. Change' }).click()
  await page.getByRole('button', { name: 'Sign out' }).click()
  await doorOf(page).waitFor()
  assert.ok(!(await page.content()).includes(patient.name))
  await signIn(page, 'Sana')
  await panelOf(page).getByRole('button', { name: 'Show who it is' }).waitFor()
  assert.ok(!(await page.content()).includes(patient.name))
  await panelOf(page).getByRole('button', { name: 'Erase it' }).click()
  const asks = page.getByRole('dialog', { name: 'Erase who the patient is' })
  await looksRight(page)
  await asks.getByRole('button', { name: 'Erase it for good' }).click()
  await panelOf(page)
    .getByText(/^It was erased on /)
    .waitFor()

  await using auditor = await screenOf(unit, 'Otto', '/theatre/c-1')
  await auditor.page.getByText('P-0001').first().waitFor()
  assert.equal(await panelOf(auditor.page).count(), 0)
  await auditor.page.goto('/unit')
  await auditor.page.getByRole('button', { name: 'Show who looked' }).click()
  const log = auditor.page.getByRole('region', { name: 'Who looked at which patient' })
  await log.getByRole('cell', { name: 'erased it', exact: true }).waitFor()
  assert.deepEqual(
    await log.getByRole('cell', { name: /^(?:wrote it down|looked|searched|erased it)$/ }).allInnerTexts(),
    ['erased it', 'looked', 'looked', 'looked', 'looked', 'searched', 'wrote it down'],
  )
  assert.ok(!(await log.innerText()).includes('0142'))
  await looksRight(auditor.page)
  noTroubles(auditor)
})
