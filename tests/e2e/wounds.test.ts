import assert from 'node:assert/strict'
import { execFile } from 'node:child_process'
import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { promisify } from 'node:util'
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
import { nextThing, noTroubles, openScreen, phone, workAs } from '../support/screen.ts'
import { chartOfAll, keep, keepInfection, openWoundUnit, surgeon } from '../support/wound-store.ts'

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
  // The form is gone, so that it is not kept twice; what comes next is named.
  await nextThing(page).getByText('The try is kept. The call stays due.').waitFor()
  await form.waitFor({ state: 'detached' })
  await nextThing(page).getByRole('link', { name: 'To the calls that are due' }).click()
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
  await form
    .getByText(/^One false alarm in about \d+(\.\d)? years? at 120 operations a year \(\d+ operations\)/)
    .waitFor()
  await form.getByText(/chance of an alarm in the first year is \d+\.\d %/).waitFor()
  await form.getByRole('textbox', { name: 'Why' }).fill('The first chart of this unit')
  // A chart that cries wolf every year would alarm at its first infection, and says so.
  await form.getByRole('spinbutton', { name: /^One false alarm/ }).fill('1')
  await form
    .getByText(/one infection alone alarms when it comes within the first 10 operations/)
    .first()
    .waitFor()
  await form.getByRole('checkbox', { name: /^Start half way/ }).uncheck()
  await form
    .getByText(/one infection alone alarms/)
    .first()
    .waitFor({ state: 'detached' })
  await form.getByRole('button', { name: 'Keep this chart' }).click()
  await page.getByRole('heading', { level: 1, name: 'All operations' }).waitFor()
  await page.getByText('No alarm stands.').waitFor()
}

async function openFromAlarm(page: Page): Promise<void> {
  await page.getByText(/Alarm since the operation of/).waitFor()
  await page.getByRole('link', { name: 'Open an investigation' }).click()
  const form = page.getByRole('form', { name: 'Open' })
  await form.getByRole('textbox', { name: 'What was seen' }).fill('Four infections in seven operations')
  // The infections of the alarm are ticked, by day and operation, and one may be taken away and put back.
  await form.getByText('The 4 infections since the chart was at zero last are ticked.').waitFor()
  await form.getByLabel('First day of operation').waitFor()
  const ticks = form.getByRole('group', { name: 'Infections that it is about' }).getByRole('checkbox')
  assert.equal(await ticks.count(), 4)
  for (const tick of await ticks.all()) assert.equal(await tick.isChecked(), true)
  await ticks.first().uncheck()
  await ticks.first().check()
  await form.getByRole('button', { name: 'Open', exact: true }).click()
  await page.getByRole('heading', { level: 1, name: 'Investigation', exact: true }).waitFor()
}

async function thinkAndSample(page: Page): Promise<void> {
  await page.locator('summary').getByText('State a hypothesis').click()
  const stated = page.getByRole('form', { name: 'State it' })
  await stated.getByRole('textbox', { name: 'What may be behind it' }).fill('The air of theatre 2')
  await stated.getByRole('button', { name: 'State it' }).click()
  await page.getByRole('listitem').filter({ hasText: 'The air of theatre 2' }).waitFor()
  await page.locator('summary').getByText('Say what its test showed').click()
  const test = page.getByRole('form', { name: 'Keep the result' })
  await test.getByRole('radio', { name: 'Not decided' }).check()
  await test.getByRole('textbox', { name: 'What was tested, and what was seen' }).fill('Plates in an empty theatre')
  await test.getByRole('button', { name: 'Keep the result' }).click()
  await page.getByText('Its test did not decide: Plates in an empty theatre').waitFor()
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

/** The list at the head of the page leads to a part, and opens it where it is folded. */
async function goToPart(page: Page, name: string): Promise<void> {
  await page.getByRole('navigation', { name: 'Parts of this page' }).getByRole('link', { name, exact: true }).click()
}

/** The first step by the screen, the others as another workstation would. */
async function markSteps(service: RunningService, page: Page): Promise<void> {
  const { body } = await service.ask('GET', '/api/known?kind=investigation&limit=1')
  const [row] = (body as KnownPage).rows
  assert.ok(row)
  const investigation = row.subject as `investigation:${string}`
  await goToPart(page, 'Steps')
  await page.getByRole('button', { name: /^Mark Look at each wound again/ }).click()
  const dialog = page.getByRole('dialog')
  await dialog.getByRole('radio', { name: 'Done' }).check()
  await dialog.getByRole('combobox', { name: /^Owner/ }).selectOption({ label: surgeon.name })
  await dialog.getByLabel(/^Due/).fill('2026-12-24')
  await dialog.getByRole('button', { name: 'Mark', exact: true }).click()
  await dialog.waitFor({ state: 'detached' })
  await page.getByText('Due: 24 Dec 2026').waitFor()
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
  // It is seen from the register on, without opening each chart.
  await page.goto('/wounds')
  await page.getByRole('paragraph').filter({ hasText: 'All operations: Alarm since the operation of' }).waitFor()
  await page.goto('/wounds/charts')
  await page.getByRole('listitem').filter({ hasText: 'Alarm since the operation of' }).getByRole('link').click()
  await openFromAlarm(page)
  await thinkAndSample(page)
  await page.locator('summary').getByText('Add the action').click()
  const action = page.getByRole('form', { name: 'Add the action' })
  await action.getByRole('textbox', { name: 'What was done' }).fill('Theatre 2 was aired out')
  await action.getByRole('button', { name: 'Add the action' }).click()
  await page.getByRole('listitem').filter({ hasText: 'Theatre 2 was aired out' }).waitFor()
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
  // What is folded is not on the screen, whole on paper, and folded again after it.
  const listed = page.getByRole('rowheader', { name: 'd30', exact: true })
  assert.equal(await listed.count(), 0)
  await onPaper(page)
  await listed.waitFor({ state: 'detached' })
  await page.getByText(/Nothing that entered the record since changes its picture/).waitFor()
  await enteredSince(service, page, now)
  noTroubles(screen)
})

/** A wound that is judged after the closing leaves the page as it was, and is found a step away. */
async function enteredSince(service: RunningService, page: Page, now: number): Promise<void> {
  await keepInfection(service, now, 15)
  await page
    .getByText(/Since then the record has changed: one of its operations\. It may speak for or against/)
    .waitFor()
  await goToPart(page, 'Line list')
  await page.getByRole('rowheader', { name: 'd30', exact: true }).waitFor()
  assert.equal(await page.getByRole('rowheader', { name: 'd15', exact: true }).count(), 0)
  await page.getByRole('link', { name: 'What is known now' }).click()
  await page.getByRole('heading', { level: 1, name: 'What is known now' }).waitFor()
  await page.getByRole('listitem').filter({ hasText: 'what is known of its wound' }).waitFor()
  await page.getByText('Comparing, some seconds…').waitFor({ state: 'detached' })
  assert.deepEqual(await sticksOut(page), [])
  await page.getByRole('link', { name: 'To the investigation' }).click()
  await page.getByRole('heading', { name: 'Closed' }).waitFor()
}

test('the chart page has the plain rate and the distances beside the sum, and each figure opens what it came from', async () => {
  await using service = await runService({ screens: builtScreens })
  const now = Date.now()
  await openWoundUnit(
    service,
    now,
    Array.from({ length: 12 }, (_, index) => 3 + index * 3),
  )
  for (const daysAgo of [30, 24, 12]) await keepInfection(service, now, daysAgo)
  await keep(service, 'chart-set', instant(now), chartOfAll)
  await using screen = await openScreen(browser, service.url)
  const { page } = screen
  await workAs(page, surgeon.name)
  await page.goto('/wounds/charts/all')
  const rate = page.getByRole('region', { name: 'The plain rate beside it' })
  await rate.getByText('3 of 12').waitFor()
  await rate.getByRole('button', { name: /^5\.5 % – 57\.2 %/ }).click()
  const drawer = page.getByRole('dialog')
  await drawer.getByText('3 of 12').waitFor()
  await drawer.getByRole('heading', { name: 'Limits of a proportion, exact' }).waitFor()
  await page.keyboard.press('Escape')
  for (const name of ['Operations between infections (g chart)', 'Days between infections (t chart)'])
    await page.getByRole('img', { name }).waitFor()
  await page.getByRole('button', { name: /^One false alarm in about/ }).click()
  await page
    .getByRole('dialog')
    .getByText(/usual rate 2\.0 %, rate to be noticed 10\.0 %, an odds ratio of 5\.44/)
    .waitFor()
  noTroubles(screen)
})

test('an implant in a wound that is not clean is decided where it is booked; without it the finding stays', async () => {
  await using service = await runService({ screens: builtScreens })
  await openWoundUnit(service, Date.now(), [12])
  await using screen = await openScreen(browser, service.url, { size: phone })
  const { page } = screen
  await workAs(page, surgeon.name)
  const planned = /An implant is planned where the wound will not be clean/
  const finding = page.getByRole('region', { name: 'What guards the wound' }).getByText(planned).first()
  const book = async (decide: boolean) => {
    await page.goto('/theatre/book')
    const form = page.getByRole('form', { name: 'Book case' })
    await form.getByRole('textbox', { name: 'Procedure' }).fill('Colectomy with mesh')
    await form.getByRole('combobox', { name: /^Kind of operation/ }).selectOption({ label: 'Colon' })
    await form.getByRole('checkbox', { name: 'An implant is planned' }).check()
    await form.getByText(planned).first().waitFor()
    await form.getByRole('textbox', { name: /^Patient/ }).fill('P-77')
    await form.getByRole('textbox', { name: 'Theatre' }).fill('Theatre 1')
    await form.getByRole('combobox', { name: 'Surgeon' }).selectOption({ label: surgeon.name })
    if (decide) {
      await form.getByRole('radio', { name: 'The implant is placed' }).check()
      await form.getByRole('textbox', { name: /^Why/ }).fill('No other repair holds')
    }
    assert.deepEqual(await sticksOut(page), [])
    await form.getByRole('button', { name: 'Book case' }).click()
    await page.getByRole('heading', { level: 1, name: 'Colectomy with mesh' }).waitFor()
  }
  await book(false)
  await finding.waitFor()
  const form = page.getByRole('form', { name: 'Keep the decision' })
  await form.getByRole('radio', { name: 'No implant' }).check()
  await form.getByRole('textbox', { name: /^Why/ }).fill('The bowel was open')
  await form.getByRole('button', { name: 'Keep the decision' }).click()
  await page.getByText('No implant: The bowel was open').waitFor()
  await finding.waitFor({ state: 'detached' })
  await book(true)
  await page.getByText('The implant is placed: No other repair holds').waitFor()
  noTroubles(screen)
})

/** The text of the sheets themselves, page by page, as the reader of a PDF gets it. */
async function textOfPdf(pdf: Buffer): Promise<readonly string[]> {
  const folder = await mkdtemp(join(tmpdir(), 'nilgrowth-pdf-'))
  try {
    const file = join(folder, 'look-back.pdf')
    await writeFile(file, pdf)
    const { stdout } = await promisify(execFile)('pdftotext', ['-layout', '-enc', 'UTF-8', file, '-'])
    // A form feed ends each page.
    return stdout.split('\f').filter((sheet) => sheet.trim() !== '')
  } finally {
    await rm(folder, { recursive: true })
  }
}

async function onPaper(page: Page): Promise<void> {
  const sheets = await textOfPdf(await page.pdf({ format: 'A4' }))
  const text = sheets.join(' ').replaceAll(/\s+/g, ' ')
  const wanted = [
    /Hypotheses.*The air of theatre 2.*Its test did not decide: Plates in an empty theatre/,
    /Line list/,
    // Attack rates: of those who met it, and of the others.
    /\b4 of 6 0 of 6\b/,
    /Actions.*Theatre 2 was aired out/,
    /The data cannot tell\. Four infections, and chance is not ruled out\./,
    /An association is a question, not an answer/,
  ]
  for (const each of wanted) assert.match(text, each)
  for (const key of ['d30', 'd24', 'd18', 'd12'])
    assert.match(text, new RegExp(`\\b${key}\\b`), `${key} on the line list`)
  // Every sheet says whose it is and what it is worth, so that none is read alone.
  for (const [index, sheet] of sheets.entries()) {
    const own = sheet.replaceAll(/\s+/g, ' ')
    assert.match(own, /Harbour Road/, `sheet ${index + 1} names the unit: ${own.slice(0, 200)}`)
    assert.match(own, /An aid to trained staff/, `sheet ${index + 1} has the caution`)
  }
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
  await keep(service, 'chart-set', instant(now), chartOfAll)
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
