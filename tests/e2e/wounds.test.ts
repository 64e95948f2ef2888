import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import type { Browser, Page } from 'playwright-core'
import { instant } from '#road/instant.ts'
import { investigationSteps } from '#road/wounds/investigation/steps.ts'
import { builtScreens } from '#service/open-service.ts'
import type { KnownPage } from '#service/api-types.ts'
import { openBrowser } from '../support/browser.ts'
import { Keyboard } from '../support/keyboard.ts'
import { isSettled, sticksOut, violationsOf } from '../support/page-check.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { noTroubles, openScreen, phone, workAs } from '../support/screen.ts'
import { keep, keepInfection, openWoundUnit, surgeon } from '../support/wound-store.ts'

let browser: Browser

before(async () => {
  browser = await openBrowser()
})

after(async () => {
  await browser.close()
})

const calls = (page: Page) => page.getByRole('region', { name: 'Follow-up calls' }).getByRole('listitem')

test('a call that reached nobody shows as tried, and one that was answered leaves the list, on a phone', async () => {
  await using service = await runService({ screens: builtScreens })
  await openWoundUnit(service, Date.now(), [4, 12])
  await using screen = await openScreen(browser, service.url, { size: phone })
  const { page } = screen
  await workAs(page, surgeon.name)
  await page.goto('/wounds')
  const row = calls(page).filter({ hasText: 'P-12' })
  await row.getByRole('link', { name: 'Make the call P-12' }).click()
  const form = page.getByRole('form', { name: 'Keep this follow-up' })
  await form.getByRole('radio', { name: 'Nobody' }).check()
  assert.deepEqual(await sticksOut(page), [])
  await form.getByRole('button', { name: 'Keep this follow-up' }).click()
  await page.getByRole('heading', { name: 'Made so far' }).waitFor()
  await page.goto('/wounds')
  await row.getByText('tried once').waitFor()
  await row.getByRole('link', { name: 'Make the call P-12' }).click()
  await form.getByRole('radio', { name: 'The patient' }).check()
  await form.getByRole('radio', { name: 'Well', exact: true }).check()
  await form.getByRole('button', { name: 'Keep this follow-up' }).click()
  await page.getByRole('listitem').filter({ hasText: 'The patient, Well' }).waitFor()
  await page.goto('/wounds')
  await page.getByText('No call is due.').waitFor()
  noTroubles(screen)
})

test('the same call by keyboard alone, with the focus in sight at every stop', async () => {
  await using service = await runService({ screens: builtScreens })
  await openWoundUnit(service, Date.now(), [12])
  await using screen = await openScreen(browser, service.url)
  const { page } = screen
  await workAs(page, surgeon.name)
  await page.goto('/wounds')
  const keyboard = new Keyboard(page)
  await keyboard.press(page.getByRole('link', { name: 'Make the call P-12' }))
  const form = page.getByRole('form', { name: 'Keep this follow-up' })
  await keyboard.press(form.getByRole('radio', { name: 'The patient' }), 'Space')
  await keyboard.press(form.getByRole('radio', { name: 'Well', exact: true }), 'Space')
  await keyboard.press(form.getByRole('button', { name: 'Keep this follow-up' }))
  await page.getByRole('listitem').filter({ hasText: 'The patient, Well' }).waitFor()
  noTroubles(screen)
})

async function setUpChart(page: Page): Promise<void> {
  await page.goto('/wounds/charts')
  await page.locator('summary').getByText('Set up a chart').click()
  const form = page.getByRole('form', { name: 'Keep this chart' })
  await form.getByRole('textbox', { name: 'Name' }).fill('All operations')
  await form.getByRole('spinbutton', { name: 'Usual rate, %' }).fill('2')
  await form.getByRole('spinbutton', { name: 'Rate to be noticed, %' }).fill('10')
  await form.getByRole('spinbutton', { name: /^Operations a year/ }).fill('120')
  await form.getByText(/^One false alarm in about \d+ operations/).waitFor()
  await form.getByRole('textbox', { name: 'Why' }).fill('The first chart of this unit')
  await form.getByRole('button', { name: 'Keep this chart' }).click()
  await page.getByRole('heading', { level: 1, name: 'All operations' }).waitFor()
  await page.getByText('No alarm stands.').waitFor()
}

async function openFromAlarm(page: Page): Promise<void> {
  await page.getByText(/Alarm since the operation of/).waitFor()
  await page.getByRole('link', { name: 'Open an investigation' }).click()
  const form = page.getByRole('form', { name: 'Open' })
  await form.getByRole('textbox', { name: 'What was seen' }).fill('Four infections in seven operations')
  await form.getByRole('button', { name: 'Open', exact: true }).click()
  await page.getByRole('heading', { level: 1, name: 'Investigation', exact: true }).waitFor()
}

async function thinkAndSample(page: Page): Promise<void> {
  await page.locator('summary').getByText('State it').click()
  const stated = page.getByRole('form', { name: 'State it' })
  await stated.getByRole('textbox', { name: 'What may be behind it' }).fill('The air of theatre 2')
  await stated.getByRole('button', { name: 'State it' }).click()
  await page.getByRole('listitem').filter({ hasText: 'The air of theatre 2' }).waitFor()
  await page.locator('summary').getByText('Take a sample').click()
  const taken = page.getByRole('form', { name: 'Keep the sample' })
  await taken.getByRole('combobox', { name: 'Of what' }).selectOption({ label: 'Air' })
  await taken.getByRole('textbox', { name: 'Where exactly' }).fill('Above the table of theatre 2')
  await taken.getByRole('button', { name: 'Keep the sample' }).click()
  const sample = page.getByRole('listitem').filter({ hasText: 'Above the table of theatre 2' })
  await sample.getByText('Waiting for its result').waitFor()
  await sample.locator('summary').click()
  const read = sample.getByRole('form', { name: 'Keep the result' })
  await read.getByRole('radio', { name: 'No growth' }).check()
  await read.getByRole('button', { name: 'Keep the result' }).click()
  await sample.getByText(/^No growth, Not compared/).waitFor()
}

/** The first step by the screen, the others as another workstation would. */
async function markSteps(service: RunningService, page: Page): Promise<void> {
  const { body } = await service.ask('GET', '/api/known?kind=investigation&limit=1')
  const [row] = (body as KnownPage).rows
  assert.ok(row)
  const investigation = row.subject as `investigation:${string}`
  await page.getByRole('button', { name: /^Mark Look at each wound again/ }).click()
  const dialog = page.getByRole('dialog')
  await dialog.getByRole('radio', { name: 'Done' }).check()
  await dialog.getByRole('button', { name: 'Mark', exact: true }).click()
  await dialog.waitFor({ state: 'detached' })
  for (const step of investigationSteps.slice(1))
    // oxlint-disable-next-line no-await-in-loop
    await keep(service, 'investigation-step-marked', instant(Date.now()), { investigation, step, state: 'notNeeded' })
}

test('an alarm of a chart is looked into up to a look-back on paper, closed only when no step is open', async () => {
  await using service = await runService({ screens: builtScreens })
  const now = Date.now()
  await openWoundUnit(
    service,
    now,
    Array.from({ length: 12 }, (_, index) => 3 + index * 3),
  )
  await using screen = await openScreen(browser, service.url)
  const { page } = screen
  await workAs(page, surgeon.name)
  await setUpChart(page)
  // oxlint-disable-next-line no-await-in-loop
  for (const daysAgo of [30, 24, 18, 12]) await keepInfection(service, now, daysAgo)
  await openFromAlarm(page)
  await thinkAndSample(page)
  await page.locator('summary').getByText('Close the investigation').click()
  const close = page.getByRole('form', { name: 'Close it' })
  await close.getByRole('combobox', { name: 'Conclusion' }).selectOption({ label: 'The data cannot tell' })
  await close.getByRole('textbox', { name: 'In words' }).fill('Four infections, and chance is not ruled out.')
  await close.getByRole('textbox', { name: /^What was changed/ }).fill('Air is sampled monthly.')
  await close.getByText(/^Stop. Steps are still open/).waitFor()
  assert.equal(await close.getByRole('button', { name: 'Close it' }).isDisabled(), true)
  await markSteps(service, page)
  await close.getByText(/^Stop. Steps are still open/).waitFor({ state: 'detached' })
  await close.getByRole('button', { name: 'Close it' }).click()
  await page.getByRole('heading', { name: 'Closed' }).waitFor()
  await page.getByText('Comparing, some seconds…').waitFor({ state: 'detached' })
  await onPaper(page)
  noTroubles(screen)
})

/** What is on the sheet: the same rules of style decide the printed page and what the browser calls visible. */
async function onPaper(page: Page): Promise<void> {
  const pdf = await page.pdf()
  assert.match(pdf.subarray(0, 5).toString('latin1'), /^%PDF-/)
  await page.emulateMedia({ media: 'print' })
  const text = await page.locator('body').innerText()
  assert.match(text, /Line list/i)
  for (const key of ['d30', 'd24', 'd18', 'd12']) assert.ok(text.includes(key), `${key} is on the line list`)
  assert.match(text, /The data cannot tell\. Four infections, and chance is not ruled out\./)
  assert.match(text, /An association is a question, not an answer/)
  assert.match(text, /An aid to trained staff/)
  assert.doesNotMatch(text, /Close it|Take a sample|Print the look-back/)
  assert.doesNotMatch(text, /culprit|proven/i)
}

const pages = [
  '/wounds',
  '/wounds/note?case=d33',
  '/wounds/follow-up?case=d33',
  '/wounds/of/d12',
  '/wounds/rates',
  '/wounds/charts',
  '/wounds/charts/all',
  '/wounds/suspects',
  '/wounds/investigations',
  '/wounds/investigations/i1',
  '/theatre/d33',
]

test('every page of wounds is accessible in both themes, and none can be pushed sideways on a phone', async () => {
  await using service = await runService({ screens: builtScreens })
  const now = Date.now()
  await openWoundUnit(service, now, [33, 24, 12])
  await keepInfection(service, now, 12)
  await keep(service, 'chart-set', instant(now), {
    chart: 'chart:all',
    name: 'All operations',
    procedures: [],
    usualRate: 0.02,
    raisedRate: 0.1,
    falseAlarmYears: 1,
    operationsPerYear: 120,
    headStart: true,
    riskAdjusted: false,
    why: 'The first chart of this unit',
  })
  await keep(service, 'investigation-opened', instant(now), {
    investigation: 'investigation:i1',
    because: 'worry',
    wounds: [],
    why: 'One infection too many',
    lead: surgeon.id,
  })
  for (const theme of ['light', 'dark'] as const) {
    /* oxlint-disable no-await-in-loop: one page after the other */
    await using screen = await openScreen(browser, service.url, { size: phone, theme })
    const { page } = screen
    await workAs(page, surgeon.name)
    for (const path of pages) {
      await page.goto(path)
      await isSettled(page)
      await page.getByText('Comparing, some seconds…').waitFor({ state: 'detached' })
      assert.deepEqual(await violationsOf(page), [], `${path} ${theme}`)
      assert.deepEqual(await sticksOut(page), [], `${path} ${theme}`)
    }
    noTroubles(screen)
    /* oxlint-enable no-await-in-loop */
  }
})
